/**
 * Waves and damped waves that the kernel evaluates by the hundred thousand, from small tables: the nearest entry, an eighth
 * apart at most a sixteenth away, times a short Taylor series. Several times as fast as the engine's own functions, which
 * are calls; inlined, these are not.
 */

/** Decay and phase of `dampedWaves` end here: e^{-28} is 1e-12. */
export const WAVE_END = 28;
const PER_UNIT = 8;
const STEP = 1 / PER_UNIT;
const DECAYS = Float64Array.from({ length: WAVE_END * PER_UNIT + 1 }, (_, i) => Math.exp(-i / PER_UNIT));
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
 * c cos x + s sin x for 0 <= x <= 1e4.
 * Accuracy: 1e-15 (1 + x) of the larger amplitude.
 */
export function wave(x: number, c: number, s: number): number {
  const phase = x - ((x * PER_TURN) | 0) * TURN;
  const at = (phase * PER_UNIT + 0.5) | 0;
  const r = phase - at * STEP;
  const sine = SINES[at]!;
  const cosine = COSINES[at]!;
  return (c * cosine + s * sine) * cosNear(r) + (s * cosine - c * sine) * sinNear(r);
}

const TURN = 2 * Math.PI;
const PER_TURN = 1 / TURN;

/** sin r and cos r for |r| <= 1/16, to 1e-16. */
function sinNear(r: number): number {
  const s = r * r;
  return r - r * s * (1 / 6 - s * (1 / 120 - s * (1 / 5040)));
}

function cosNear(r: number): number {
  const s = r * r;
  return 1 - s * (1 / 2 - s * (1 / 24 - s * (1 / 720 - s * (1 / 40320))));
}

/** As many as there are waves. */
export interface WaveParts {
  fall: Float64Array;
  sin: Float64Array;
  cos: Float64Array;
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
  { fall, sin, cos }: WaveParts,
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
    const sr = sinNear(r);
    const cr = cosNear(r);
    const sine = sines[at]!;
    const cosine = cosines[at]!;
    sin[i] = sine * cr + cosine * sr;
    cos[i] = cosine * cr - sine * sr;
  }
}
