import { type Problem, problemOf } from './problems.ts';
import { variedRange } from './varied.ts';

/** A constrained problem with one objective, and the least that is published for it. Past 300 lines: a list of eighteen. */
export interface ConstrainedProblem extends Problem {
  readonly name: string;
  readonly optimum: number;
}

type Range = readonly [low: number, high: number];
type Limits = Parameters<typeof problemOf>[2];

function constrained(
  name: string,
  optimum: number,
  ranges: readonly Range[],
  objective: (x: readonly number[]) => number,
  limits: Limits,
): ConstrainedProblem {
  const vary = ranges.map(([low, high], i) => variedRange(`x${i}`, low, high));
  return { name, optimum, ...problemOf(vary, (x) => [objective(x)], limits) };
}

const times = (n: number, range: Range): Range[] => Array.from({ length: n }, () => range);

/**
 * g04 to g12 and g24 of J. J. Liang et al., Problem definitions and evaluation criteria for the CEC 2006 special session
 * on constrained real-parameter optimization, Nanyang Technological University, 2006. Formulas and optima agree with
 * several public copies. The limits of g04 are three numbers that must lie in a band each.
 */
const G04 = constrained(
  'g04',
  -30665.538671783332,
  [
    [78, 102],
    [33, 45],
    [27, 45],
    [27, 45],
    [27, 45],
  ],
  ([a, , c, , e]) => 5.3578547 * c! ** 2 + 0.8356891 * a! * e! + 37.293239 * a! - 40792.141,
  ([a, b, c, d, e]) => {
    const u = 85.334407 + 0.0056858 * b! * e! + 0.0006262 * a! * d! - 0.0022053 * c! * e!;
    const v = 80.51249 + 0.0071317 * b! * e! + 0.0029955 * a! * b! + 0.0021813 * c! ** 2;
    const w = 9.300961 + 0.0047026 * c! * e! + 0.0012547 * a! * c! + 0.0019085 * c! * d!;
    return [
      [u, '>=', 0],
      [u, '<=', 92],
      [v, '>=', 90],
      [v, '<=', 110],
      [w, '>=', 20],
      [w, '<=', 25],
    ];
  },
);

const G06 = constrained(
  'g06',
  -6961.81387558015,
  [
    [13, 100],
    [0, 100],
  ],
  ([x, y]) => (x! - 10) ** 3 + (y! - 20) ** 3,
  ([x, y]) => [
    [(x! - 5) ** 2 + (y! - 5) ** 2, '>=', 100],
    [(x! - 6) ** 2 + (y! - 5) ** 2, '<=', 82.81],
  ],
);

const G07 = constrained(
  'g07',
  24.30620906818,
  times(10, [-10, 10]),
  ([a, b, c, d, e, f, g, h, i, j]) =>
    a! ** 2 +
    b! ** 2 +
    a! * b! -
    14 * a! -
    16 * b! +
    (c! - 10) ** 2 +
    4 * (d! - 5) ** 2 +
    (e! - 3) ** 2 +
    2 * (f! - 1) ** 2 +
    5 * g! ** 2 +
    7 * (h! - 11) ** 2 +
    2 * (i! - 10) ** 2 +
    (j! - 7) ** 2 +
    45,
  ([a, b, c, d, e, f, g, h, i, j]) => [
    [4 * a! + 5 * b! - 3 * g! + 9 * h!, '<=', 105],
    [10 * a! - 8 * b! - 17 * g! + 2 * h!, '<=', 0],
    [-8 * a! + 2 * b! + 5 * i! - 2 * j!, '<=', 12],
    [3 * (a! - 2) ** 2 + 4 * (b! - 3) ** 2 + 2 * c! ** 2 - 7 * d!, '<=', 120],
    [5 * a! ** 2 + 8 * b! + (c! - 6) ** 2 - 2 * d!, '<=', 40],
    [a! ** 2 + 2 * (b! - 2) ** 2 - 2 * a! * b! + 14 * e! - 6 * f!, '<=', 0],
    [0.5 * (a! - 8) ** 2 + 2 * (b! - 4) ** 2 + 3 * e! ** 2 - f!, '<=', 30],
    [-3 * a! + 6 * b! + 12 * (i! - 8) ** 2 - 7 * j!, '<=', 0],
  ],
);

const G08 = constrained(
  'g08',
  -0.0958250414180359,
  times(2, [0, 10]),
  ([x, y]) => {
    const below = x! ** 3 * (x! + y!);
    return below === 0 ? 0 : -(Math.sin(2 * Math.PI * x!) ** 3 * Math.sin(2 * Math.PI * y!)) / below;
  },
  ([x, y]) => [
    [x! ** 2 + 1, '<=', y!],
    [(y! - 4) ** 2 + 1, '<=', x!],
  ],
);

const G09 = constrained(
  'g09',
  680.630057374402,
  times(7, [-10, 10]),
  ([a, b, c, d, e, f, g]) =>
    (a! - 10) ** 2 +
    5 * (b! - 12) ** 2 +
    c! ** 4 +
    3 * (d! - 11) ** 2 +
    10 * e! ** 6 +
    7 * f! ** 2 +
    g! ** 4 -
    4 * f! * g! -
    10 * f! -
    8 * g!,
  ([a, b, c, d, e, f, g]) => [
    [2 * a! ** 2 + 3 * b! ** 4 + c! + 4 * d! ** 2 + 5 * e!, '<=', 127],
    [7 * a! + 3 * b! + 10 * c! ** 2 + d! - e!, '<=', 282],
    [23 * a! + b! ** 2 + 6 * f! ** 2 - 8 * g!, '<=', 196],
    [4 * a! ** 2 + b! ** 2 - 3 * a! * b! + 2 * c! ** 2 + 5 * f! - 11 * g!, '<=', 0],
  ],
);

const G10 = constrained(
  'g10',
  7049.24802052867,
  [[100, 10_000], ...times(2, [1000, 10_000]), ...times(5, [10, 1000])],
  ([a, b, c]) => a! + b! + c!,
  ([a, b, c, d, e, f, g, h]) => [
    [0.0025 * (d! + f!), '<=', 1],
    [0.0025 * (e! + g! - d!), '<=', 1],
    [0.01 * (h! - e!), '<=', 1],
    [a! * f!, '>=', 833.33252 * d! + 100 * a! - 83333.333],
    [b! * g!, '>=', 1250 * e! + b! * d! - 1250 * d!],
    [c! * h!, '>=', 1_250_000 + c! * e! - 2500 * e!],
  ],
);

/** Its one equation holds to 1e-4, which is how the report counts it. */
const G11 = constrained(
  'g11',
  0.7499,
  times(2, [-1, 1]),
  ([x, y]) => x! ** 2 + (y! - 1) ** 2,
  ([x, y]) => [
    [y! - x! ** 2, '<=', 1e-4],
    [y! - x! ** 2, '>=', -1e-4],
  ],
);

/** Feasible in one of 729 small spheres, about whole numbers from 1 to 9. */
const G12 = constrained(
  'g12',
  -1,
  times(3, [0, 10]),
  (x) => -(100 - x.reduce((sum, c) => sum + (c - 5) ** 2, 0)) / 100,
  (x) => [[x.reduce((sum, c) => sum + (c - Math.min(9, Math.max(1, Math.round(c)))) ** 2, 0), '<=', 0.0625]],
);

const G24 = constrained(
  'g24',
  -5.50801327159536,
  [
    [0, 3],
    [0, 4],
  ],
  ([x, y]) => -x! - y!,
  ([x, y]) => [
    [-2 * x! ** 4 + 8 * x! ** 3 - 8 * x! ** 2 + y!, '<=', 2],
    [-4 * x! ** 4 + 32 * x! ** 3 - 88 * x! ** 2 + 96 * x! + y!, '<=', 36],
  ],
);

/**
 * W. Hock, K. Schittkowski, Test examples for nonlinear programming codes, Springer 1981 (formulas from memory; each
 * gives its published least at its published solution). Where a problem has no bounds of its own, these are wide.
 */
const HS34 = constrained(
  'hs34',
  -Math.log(Math.log(10)),
  [
    [0, 100],
    [0, 100],
    [0, 10],
  ],
  ([x]) => -x!,
  ([x, y, z]) => [
    [Math.exp(x!), '<=', y!],
    [Math.exp(y!), '<=', z!],
  ],
);

const HS43 = constrained(
  'hs43',
  -44,
  times(4, [-10, 10]),
  ([a, b, c, d]) => a! ** 2 + b! ** 2 + 2 * c! ** 2 + d! ** 2 - 5 * a! - 5 * b! - 21 * c! + 7 * d!,
  ([a, b, c, d]) => [
    [a! ** 2 + b! ** 2 + c! ** 2 + d! ** 2 + a! - b! + c! - d!, '<=', 8],
    [a! ** 2 + 2 * b! ** 2 + c! ** 2 + 2 * d! ** 2 - a! - d!, '<=', 10],
    [2 * a! ** 2 + b! ** 2 + c! ** 2 + 2 * a! - b! - d!, '<=', 5],
  ],
);

const HS65 = constrained(
  'hs65',
  0.9535288567,
  [...times(2, [-4.5, 4.5]), [-5, 5]],
  ([x, y, z]) => (x! - y!) ** 2 + (x! + y! - 10) ** 2 / 9 + (z! - 5) ** 2,
  ([x, y, z]) => [[x! ** 2 + y! ** 2 + z! ** 2, '<=', 48]],
);

const HS76 = constrained(
  'hs76',
  -103 / 22,
  times(4, [0, 10]),
  ([a, b, c, d]) =>
    a! ** 2 + 0.5 * b! ** 2 + c! ** 2 + 0.5 * d! ** 2 - a! * c! + c! * d! - a! - 3 * b! + c! - d!,
  ([a, b, c, d]) => [
    [a! + 2 * b! + c! + d!, '<=', 5],
    [3 * a! + b! + 2 * c! - d!, '<=', 4],
    [b! + 4 * c!, '>=', 1.5],
  ],
);

/**
 * The welded beam (K. M. Ragsdell, D. T. Phillips, J. Eng. Ind. 98 (1976) 1021-1025, doi:10.1115/1.3438995) with seven
 * limits: weld's thickness and length, bar's height and thickness. The least is quoted with these digits in several public copies.
 */
const BEAM = constrained(
  'welded beam',
  1.724852308597365,
  [
    [0.1, 2],
    [0.1, 10],
    [0.1, 10],
    [0.1, 2],
  ],
  ([h, l, t, b]) => 1.10471 * h! ** 2 * l! + 0.04811 * t! * b! * (14 + l!),
  ([h, l, t, b]) => {
    const [load, reach, young, shear] = [6000, 14, 30e6, 12e6];
    const primary = load / (Math.SQRT2 * h! * l!);
    const arm = Math.hypot(l! / 2, (h! + t!) / 2);
    const polar = 2 * Math.SQRT2 * h! * l! * (l! ** 2 / 12 + ((h! + t!) / 2) ** 2);
    const secondary = (load * (reach + l! / 2) * arm) / polar;
    const stress = Math.sqrt(primary ** 2 + (primary * secondary * l!) / arm + secondary ** 2);
    const buckling =
      ((4.013 * young * t! * b! ** 3) / 6 / reach ** 2) *
      (1 - (t! / (2 * reach)) * Math.sqrt(young / (4 * shear)));
    return [
      [stress, '<=', 13_600],
      [(6 * load * reach) / (b! * t! ** 2), '<=', 30_000],
      [h!, '<=', b!],
      [0.10471 * h! ** 2 + 0.04811 * t! * b! * (14 + l!), '<=', 5],
      [h!, '>=', 0.125],
      [(4 * load * reach ** 3) / (young * t! ** 3 * b!), '<=', 0.25],
      [buckling, '>=', load],
    ];
  },
);

/**
 * The spring of A. D. Belegundu and J. S. Arora (Int. J. Numer. Methods Eng. 21 (1985) 1583-1599, from memory): wire,
 * winding, turns. The least is quoted with these digits in several public copies.
 */
const SPRING = constrained(
  'spring',
  0.012665232788,
  [
    [0.05, 2],
    [0.25, 1.3],
    [2, 15],
  ],
  ([d, w, n]) => (n! + 2) * w! * d! ** 2,
  ([d, w, n]) => [
    [(w! ** 3 * n!) / (71_785 * d! ** 4), '>=', 1],
    [(4 * w! ** 2 - d! * w!) / (12_566 * (w! * d! ** 3 - d! ** 4)) + 1 / (5108 * d! ** 2), '<=', 1],
    [(140.45 * d!) / (w! ** 2 * n!), '>=', 1],
    [d! + w!, '<=', 1.5],
  ],
);

/** The pressure vessel of `multi-start.test.ts` with plate of any thickness; the least from public copies. */
const VESSEL = constrained(
  'pressure vessel',
  5885.332773616458,
  [...times(2, [0.0625, 6.1875]), ...times(2, [10, 200])],
  ([s, h, r, l]) =>
    0.6224 * s! * r! * l! + 1.7781 * h! * r! ** 2 + 3.1661 * s! ** 2 * l! + 19.84 * s! ** 2 * r!,
  ([s, h, r, l]) => [
    [0.0193 * r!, '<=', s!],
    [0.00954 * r!, '<=', h!],
    [Math.PI * r! ** 2 * l! + (4 / 3) * Math.PI * r! ** 3, '>=', 1_296_000],
  ],
);

/** The truss of three bars of textbooks (from memory; the least from public copies). */
const TRUSS = constrained(
  'three-bar truss',
  263.8958433764684,
  times(2, [0, 1]),
  ([a, b]) => (2 * Math.SQRT2 * a! + b!) * 100,
  ([a, b]) => {
    const below = Math.SQRT2 * a! ** 2 + 2 * a! * b!;
    return [
      [(2 * (Math.SQRT2 * a! + b!)) / below, '<=', 2],
      [(2 * b!) / below, '<=', 2],
      [2 / (a! + Math.SQRT2 * b!), '<=', 2],
    ];
  },
);

/**
 * The speed reducer of J. Golinski (1970, from memory) with every number free: face, module, teeth, two shafts' lengths
 * and diameters. The least from public copies.
 */
const REDUCER = constrained(
  'speed reducer',
  2994.471066,
  [
    [2.6, 3.6],
    [0.7, 0.8],
    [17, 28],
    [7.3, 8.3],
    [7.3, 8.3],
    [2.9, 3.9],
    [5, 5.5],
  ],
  ([b, m, z, p, q, d, e]) =>
    0.7854 * b! * m! ** 2 * (3.3333 * z! ** 2 + 14.9334 * z! - 43.0934) -
    1.508 * b! * (d! ** 2 + e! ** 2) +
    7.4777 * (d! ** 3 + e! ** 3) +
    0.7854 * (p! * d! ** 2 + q! * e! ** 2),
  ([b, m, z, p, q, d, e]) => [
    [27 / (b! * m! ** 2 * z!), '<=', 1],
    [397.5 / (b! * m! ** 2 * z! ** 2), '<=', 1],
    [(1.93 * p! ** 3) / (m! * z! * d! ** 4), '<=', 1],
    [(1.93 * q! ** 3) / (m! * z! * e! ** 4), '<=', 1],
    [Math.hypot((745 * p!) / (m! * z!), Math.sqrt(16.9e6)) / d! ** 3, '<=', 110],
    [Math.hypot((745 * q!) / (m! * z!), Math.sqrt(157.5e6)) / e! ** 3, '<=', 85],
    [m! * z!, '<=', 40],
    [5 * m!, '<=', b!],
    [b!, '<=', 12 * m!],
    [1.5 * d! + 1.9, '<=', p!],
    [1.1 * e! + 1.9, '<=', q!],
  ],
);

/** On these the search was developed. */
export const DEVELOPED_ON = [
  G04,
  G06,
  G08,
  G09,
  G10,
  G11,
  G12,
  HS34,
  HS43,
  HS65,
  HS76,
  BEAM,
  SPRING,
  VESSEL,
  TRUSS,
];

/** These were looked at once, afterwards. */
export const HELD_OUT = [G07, REDUCER, G24];

/**
 * Evaluations until a design met all limits and cost at most 1e-6 more than the optimum, most of ten seeds: before there were
 * quadratic steps. Infinite where a seed did not come so near with eight starts of 5000.
 */
export const MOST_BEFORE: Readonly<Record<string, number>> = {
  g04: 6166,
  g06: Number.POSITIVE_INFINITY,
  g08: 291,
  g09: Number.POSITIVE_INFINITY,
  g10: Number.POSITIVE_INFINITY,
  g11: 3635,
  g12: Number.POSITIVE_INFINITY,
  hs34: Number.POSITIVE_INFINITY,
  hs43: 22_188,
  hs65: Number.POSITIVE_INFINITY,
  hs76: 2044,
  'welded beam': Number.POSITIVE_INFINITY,
  spring: Number.POSITIVE_INFINITY,
  'pressure vessel': Number.POSITIVE_INFINITY,
  'three-bar truss': 295,
  g07: Number.POSITIVE_INFINITY,
  'speed reducer': Number.POSITIVE_INFINITY,
  g24: 1225,
};
