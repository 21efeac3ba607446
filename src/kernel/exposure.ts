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
