/**
 * The Bessel moment X(x) = int_0^x t J1(t) dt and what is needed of it far out.
 *
 * A winding's spectrum is a difference of two moments (Dodd & Deeds 1968), needed twice at every node, so it
 * is a table here: quintic pieces of width 1/16 on [0, 128], each made when it is first read.
 *
 * Far out, X(x) = 1 + Re[F(x) e^{ix}] with a slowly varying F: `momentTail` gives F, so that the fast
 * oscillation can be averaged away instead of followed.
 *
 * Sources: X = -x J0 + int_0^x J0 (Abramowitz & Stegun 11.3.6 and 9.1.30), int_0^x J0 = 2 (J1 + J3 + J5 + ...)
 * (A&S 11.1.2); Hankel's asymptotic series of J1 (A&S 9.2.5-9.2.10; DLMF 10.17.3).
 */

/** Largest argument of `besselMoment`. */
export const MOMENT_TABLE_END = 128;

const CELLS_PER_UNIT = 16;
const CELLS = MOMENT_TABLE_END * CELLS_PER_UNIT;
const TABLE = new Float64Array(6 * CELLS).fill(Number.NaN);

/**
 * X(x) for 0 <= x <= MOMENT_TABLE_END.
 * Accuracy: 1e-11 absolute, and relative for small x, where X = x^3/6 (the cell at zero is a series).
 */
export function besselMoment(x: number): number {
  if (x < SERIES_END) return series(x);
  const u = x * CELLS_PER_UNIT;
  let cell = u | 0;
  if (cell >= CELLS) cell = CELLS - 1;
  const s = u - cell;
  const i = 6 * cell;
  if (Number.isNaN(TABLE[i]!)) fillPiece(cell);
  return (
    TABLE[i]! +
    s * (TABLE[i + 1]! + s * (TABLE[i + 2]! + s * (TABLE[i + 3]! + s * (TABLE[i + 4]! + s * TABLE[i + 5]!))))
  );
}

const SERIES_END = 1;

/** X(x) = sum_m (-1)^m x^(2m+3) / (m! (m+1)! 2^(2m+1) (2m+3)), seven terms: 1e-15 relative up to x = 1. */
function series(x: number): number {
  const y = x * x;
  return (
    x *
    y *
    0.5 *
    (1 / 3 +
      y *
        (-1 / 40 +
          y *
            (1 / 1344 +
              y * (-1 / 82944 + y * (1 / 8110080 + y * (-1 / 1150156800 + y * (1 / 222953472000)))))))
  );
}

/**
 * A quintic Hermite piece from X, X' = x J1 and X'' = x J0 at the cell's edges, J0, J1 and X by Miller's backward recurrence
 * (A&S 9.12, example 1), normalised by J0 + 2 sum J_2k = 1. Never at x = 0, where the series is.
 *
 * One function: V8 carries two shorter ones into whoever reads the table, and then leaves calls of what is read each time.
 */
function fillPiece(cell: number): void {
  const width = 1 / CELLS_PER_UNIT;
  for (let edge = 0; edge < 2; edge++) {
    const x = (cell + edge) * width;
    let above = 0;
    let here = 1e-300;
    let evens = 0;
    let odds = 0;
    for (let n = 2 * Math.ceil((x + 20 + 3 * Math.cbrt(x) * 4) / 2); n > 0; n--) {
      if (n % 2 === 0) evens += here;
      else odds += here;
      const below = (2 * n * here) / x - above;
      above = here;
      here = below;
      if (Math.abs(here) > 1e250) {
        here *= 1e-250;
        above *= 1e-250;
        evens *= 1e-250;
        odds *= 1e-250;
      }
    }
    const norm = here + 2 * evens;
    const j0 = here / norm;
    EDGES[3 * edge] = -x * j0 + (2 * odds) / norm;
    EDGES[3 * edge + 1] = width * x * (above / norm);
    EDGES[3 * edge + 2] = width * width * x * j0;
  }
  const p0 = EDGES[0]!;
  const d0 = EDGES[1]!;
  const c0 = EDGES[2]!;
  const p1 = EDGES[3]!;
  const d1 = EDGES[4]!;
  const c1 = EDGES[5]!;
  const i = 6 * cell;
  TABLE[i] = p0;
  TABLE[i + 1] = d0;
  TABLE[i + 2] = c0 / 2;
  TABLE[i + 3] = 10 * (p1 - p0) - 6 * d0 - 4 * d1 - 1.5 * c0 + 0.5 * c1;
  TABLE[i + 4] = -15 * (p1 - p0) + 8 * d0 + 7 * d1 + 1.5 * c0 - c1;
  TABLE[i + 5] = 6 * (p1 - p0) - 3 * (d0 + d1) - 0.5 * (c0 - c1);
}

/** X, X' and X'' in cells at a piece's edges. */
const EDGES = new Float64Array(6);

/** F is taken from the asymptotic series for x at or above this: its error is 5e-6 of F there, 1e-10 from x = 30 on. */
export const MOMENT_TAIL_START = 10;

const TAIL = tailCoefficients(10);

/**
 * F(x) e^{3 pi i/4} sqrt(pi / (2x)) = in_phase - i quadrature, for x >= MOMENT_TAIL_START: the two slowly
 * varying amplitudes P = 1 - d2/x^2 + ... and Q = d1/x - d3/x^3 + ..., so that
 * X(x) = 1 + sqrt(2x/pi) Re[(Q - iP) e^{i(x - 3 pi/4)}].
 * Recurrence d_n = a_n(1) + (3/2 - n) d_{n-1} follows from X' = x J1 term by term.
 */
export function momentTailP(x: number): number {
  const y = 1 / (x * x);
  return TAIL[0]! - y * (TAIL[2]! - y * (TAIL[4]! - y * (TAIL[6]! - y * TAIL[8]!)));
}

export function momentTailQ(x: number): number {
  const y = 1 / (x * x);
  return (TAIL[1]! - y * (TAIL[3]! - y * (TAIL[5]! - y * (TAIL[7]! - y * TAIL[9]!)))) / x;
}

function tailCoefficients(count: number): Float64Array {
  const d = new Float64Array(count);
  let hankel = 1;
  d[0] = 1;
  for (let n = 1; n < count; n++) {
    hankel *= (4 - (2 * n - 1) ** 2) / (8 * n);
    d[n] = hankel + (1.5 - n) * d[n - 1]!;
  }
  return d;
}
