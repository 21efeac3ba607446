/**
 * Reference levels of ICNIRP 2010 for magnetic flux density, T rms, unperturbed, 1 Hz to 100 kHz; NaN outside.
 * Source: International Commission on Non-Ionizing Radiation Protection, Health Phys. 99 (2010) 818-836, tables 3 and 4,
 * doi:10.1097/HP.0b013e3181f06c86 (the ranges from 25 Hz to 3 kHz seen quoted; below 25 Hz and above 3 kHz from memory).
 */
export function occupationalLevel(frequency: number): number {
  if (!(frequency >= 1 && frequency <= 1e5)) return Number.NaN;
  if (frequency < 8) return 0.2 / (frequency * frequency);
  if (frequency < 25) return 0.025 / frequency;
  if (frequency < 300) return 1e-3;
  return frequency < 3000 ? 0.3 / frequency : 1e-4;
}

export function publicLevel(frequency: number): number {
  if (!(frequency >= 1 && frequency <= 1e5)) return Number.NaN;
  if (frequency < 8) return 0.04 / (frequency * frequency);
  if (frequency < 25) return 0.005 / frequency;
  if (frequency < 400) return 0.2e-3;
  return frequency < 3000 ? 0.08 / frequency : 2.7e-5;
}

/**
 * Where a wearer of a pacemaker or other implant is warned, T rms: 0.1 mT at mains frequency, the level from which some
 * workplaces keep them out. Compliance with ICNIRP 2010 need not preclude interference (ICNIRP's own remark).
 * Source: a university's safety office (1 G at 60 Hz, seen quoted).
 */
export const PACEMAKER_LEVEL = 0.1e-3;

/**
 * Burn thresholds of hot bare metal, K, by time of contact (ISO 13732-1:2006): 1 s 65 to 70 degC (the lower is taken;
 * from memory), 1 min 51 degC (from memory), 10 min 48 degC (seen quoted), 8 h and longer 43 degC (from memory).
 */
export const BURN_THRESHOLD = Object.freeze({
  oneSecond: 338.15,
  oneMinute: 324.15,
  tenMinutes: 321.15,
  eightHours: 316.15,
});

/** Conventional touch voltage limit, dry, V ac rms (IEC 60364-4-41, 415.2.2; seen as a secondary quotation). */
export const TOUCH_VOLTAGE = 50;

/** Flux density, T peak, above which ordinary steel saturates and a linear answer is optimistic (contract, section 5). */
export const SATURATION = 1.5;
