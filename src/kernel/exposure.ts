import { MU0 } from './constants.ts';

/**
 * Reference levels for people in a sinusoidal magnetic field, T rms, unperturbed; NaN outside 1 Hz to 10 MHz.
 *
 * Up to 10 MHz nerves are stimulated: International Commission on Non-Ionizing Radiation Protection (ICNIRP), Health Phys.
 * 99 (2010) 818-836, tables 3 and 4, doi:10.1097/HP.0b013e3181f06c86 (all ranges seen quoted). From 100 kHz on tissue is
 * heated as well: ICNIRP, Health Phys. 118 (2020) 483-524, doi:10.1097/HP.0000000000001210: H = 4.9 A/m (at work) and 2.2 A/m
 * (public) over the frequency in MHz, for the whole body and 30 minutes (from memory; the levels for a part of the body
 * and 6 minutes, 10.8 and 4.9 A/m, were seen quoted). The lower of the two counts. A coil's field is local, so the
 * whole-body level is the careful choice.
 */
export function occupationalLevel(frequency: number): number {
  if (!(frequency >= LOWEST && frequency <= HIGHEST)) return Number.NaN;
  if (frequency < 8) return 0.2 / (frequency * frequency);
  if (frequency < 25) return 0.025 / frequency;
  if (frequency < 300) return 1e-3;
  if (frequency < 3000) return 0.3 / frequency;
  return frequency < HEATS ? 1e-4 : Math.min(1e-4, (MU0 * 4.9e6) / frequency);
}

export function publicLevel(frequency: number): number {
  if (!(frequency >= LOWEST && frequency <= HIGHEST)) return Number.NaN;
  if (frequency < 8) return 0.04 / (frequency * frequency);
  if (frequency < 25) return 0.005 / frequency;
  if (frequency < 400) return 0.2e-3;
  if (frequency < 3000) return 0.08 / frequency;
  return frequency < HEATS ? 2.7e-5 : Math.min(2.7e-5, (MU0 * 2.2e6) / frequency);
}

/**
 * The level below which EN 50527-1 expects active implants to work undisturbed: that of the Council Recommendation
 * 1999/519/EC for the public, 5/f(kHz) uT from 8 Hz to 0.8 kHz, 6.25 uT to 150 kHz, then 0.92/f(MHz) uT (100 uT at 50 Hz and
 * 6.25 uT seen quoted; ranges, the level above 150 kHz, and that the standard takes it for granted: from memory). Never laxer
 * than the public level.
 */
export function implantLevel(frequency: number): number {
  return Math.min(publicLevel(frequency), recommendedLevel(frequency));
}

function recommendedLevel(frequency: number): number {
  if (frequency < 8) return 0.04 / (frequency * frequency);
  if (frequency < 800) return 5e-3 / frequency;
  return frequency < 150e3 ? 6.25e-6 : 0.92 / frequency;
}

const LOWEST = 1;
const HIGHEST = 1e7;
/** From here on the limits against heating apply as well, Hz. */
const HEATS = 1e5;
