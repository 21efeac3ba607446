const STEPS = [1, 1.5, 2, 3, 4, 6, 8, 10];

/** The next round number that is not less: axes keep their ends while one drags. 0 for what is not above 0. */
export function niceCeiling(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return 0;
  const power = 10 ** Math.floor(Math.log10(value));
  return power * STEPS.find((step) => step * power >= value * (1 - 1e-12))!;
}
