/**
 * Exponentials of the decays and damped waves that the kernel asks for by the hundred thousand, from small tables: the
 * nearest entry, an eighth apart at most a sixteenth away, times a short Taylor series. Several times as fast as the
 * engine's own functions, which are calls; inlined, these are not.
 */

/** Beyond this `decay` is 0: e^{-64} is 1.6e-28. */
const DECAY_END = 64;
const PER_UNIT = 8;
const STEP = 1 / PER_UNIT;
const DECAYS = Float64Array.from({ length: DECAY_END * PER_UNIT + 1 }, (_, i) => Math.exp(-i / PER_UNIT));

/**
 * e^{-x} for x >= 0; 0 beyond 64.
 * Accuracy: 1e-15 relative.
 */
export function decay(x: number): number {
  if (!(x < DECAY_END)) return 0;
  const cell = (x * PER_UNIT + 0.5) | 0;
  const table = DECAYS[cell]!;
  return table + table * rise(cell * STEP - x);
}

/** Decay and phase of `dampedWaves` end here: e^{-28} is 1e-12. */
export const WAVE_END = 28;
const PHASES = (WAVE_END / 2) * PER_UNIT + 1;
const SINES = Float64Array.from({ length: PHASES }, (_, i) => Math.sin(i / PER_UNIT));
const COSINES = Float64Array.from({ length: PHASES }, (_, i) => Math.cos(i / PER_UNIT));

/** e^r - 1 for |r| <= 1/16: eight terms, 1e-15 relative. Reciprocals, since a division costs as much as four terms. */
function rise(r: number): number {
  const s = r * r;
  return (
    r +
    s *
      (1 / 2 + r * (1 / 6) + s * (1 / 24 + r * (1 / 120) + s * (1 / 720 + r * (1 / 5040) + s * (1 / 40320))))
  );
}

/**
 * The parts of e^{-2 (p + jq)} from which nothing cancels, for 0 <= q <= p <= WAVE_END / 2:
 * fall = 1 - e^{-2p}, sin = sin q, cos = cos q, of `count` waves; 1 - e^{-2 (p + jq)} is
 * fall + 2 e^{-2p} sin q (sin q + j cos q).
 * @param scale multiplies every p and q first
 * Accuracy: 1e-14, relative in fall and sin also where they are small.
 */
export function dampedWaves(
  p: Float64Array,
  q: Float64Array,
  scale: number,
  count: number,
  fall: Float64Array,
  sin: Float64Array,
  cos: Float64Array,
): void {
  const decays = DECAYS;
  const sines = SINES;
  const cosines = COSINES;
  const twice = 2 * scale;
  for (let i = 0; i < count; i++) {
    const x = twice * p[i]!;
    const cell = (x * PER_UNIT + 0.5) | 0;
    const table = decays[cell]!;
    // (1 - table) is exact where it is small: there table = 1
    fall[i] = 1 - table - table * rise(cell * STEP - x);
    const phase = scale * q[i]!;
    const at = (phase * PER_UNIT + 0.5) | 0;
    const r = phase - at * STEP;
    const s = r * r;
    const sr = r - r * s * (1 / 6 - s * (1 / 120 - s * (1 / 5040)));
    const cr = 1 - s * (1 / 2 - s * (1 / 24 - s * (1 / 720 - s * (1 / 40320))));
    const sine = sines[at]!;
    const cosine = cosines[at]!;
    sin[i] = sine * cr + cosine * sr;
    cos[i] = cosine * cr - sine * sr;
  }
}
