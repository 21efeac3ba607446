/**
 * A-weighted sound pressure level, dB above 20 uPa, 1 m in front of a rigid disc that vibrates along its axis as if it sat in
 * a wall: p = rho w^2 X a^2 / (2 r) (peak; far field on the axis), w = 2 pi f.
 *
 * A floating coil or plate also pushes air out of the gap below it, and air flows round its rim; the plate stands for the
 * wall. So this is an estimate to 10 dB or so (a judgement, not a measurement), above the truth for a disc that is small
 * against the wave. Table tops that resonate are louder.
 * Source: the piston in a wall, Lord Rayleigh, Theory of Sound, art. 302 (from memory); A-weighting: IEC 61672-1, annex E
 * (from memory; its values of -19.1 dB at 100 Hz and 0 dB at 1 kHz are in every table of it).
 * @param amplitude of the motion, m, above 0
 * @param radius m
 * @param frequency of the motion, Hz
 */
export function humLevel(amplitude: number, radius: number, frequency: number): number {
  const omega = 2 * Math.PI * frequency;
  const peak = (AIR_DENSITY * omega * omega * amplitude * radius * radius) / (2 * DISTANCE);
  return 20 * Math.log10(peak / Math.SQRT2 / THRESHOLD_OF_HEARING) + aWeighting(frequency);
}

/** dB at a frequency in Hz. */
export function aWeighting(frequency: number): number {
  const f2 = frequency * frequency;
  const high = 12194.217 ** 2;
  const low = 20.598997 ** 2;
  const passed =
    (high * f2 * f2) / ((f2 + low) * Math.sqrt((f2 + 107.65265 ** 2) * (f2 + 737.86223 ** 2)) * (f2 + high));
  return 20 * Math.log10(passed) + 2;
}

/** kg/m3, at 20 degC. */
const AIR_DENSITY = 1.2;
/** m */
const DISTANCE = 1;
/** Pa rms, ISO 1683. */
const THRESHOLD_OF_HEARING = 20e-6;
