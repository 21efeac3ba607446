/** Headings of a report's sections; the links at its head are the same words. */
export const HEADINGS = {
  front: 'Trade-off',
  rigs: 'Rigs',
  lift: 'Height and current',
  motion: 'Switch-on',
  warming: 'Left alone',
  sideways: 'Sideways and tilt',
  inputs: 'Main effects',
  sensitivities: 'Sensitivities',
  limits: 'Limits',
  tolerances: 'Tolerances',
  calibration: 'Calibration',
  cautions: 'Cautions',
  provenance: 'Provenance',
} as const;
