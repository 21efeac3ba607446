import { meets } from '../../src/expression/evaluate-program.ts';
import { limitExcess, limitGap } from '../../src/expression/limit-excess.ts';
import type { DesignBatch } from '../../src/model/rows.ts';
import type { Varied } from '../../src/model/study.ts';
import type { JudgedRows, Senses } from '../../src/plan/candidate.ts';
import { variedNumber, variedRange } from './varied.ts';

/** A test problem of the literature as a search sees it: axes, objectives, limits; and the front that it is known to have. */
export interface Problem {
  readonly vary: readonly Varied[];
  readonly senses: Senses;
  evaluate(batch: DesignBatch): JudgedRows;
  /** How far the one design of a row is on the wrong side of each limit, as a share of its bound. */
  gaps(row: DesignBatch): Float64Array;
}

export interface FrontProblem extends Problem {
  /** Points of the true front, densely. */
  readonly front: readonly (readonly number[])[];
  /** Beyond the worst of the front in every objective. */
  readonly reference: readonly number[];
}

type Limit = readonly [left: number, comparison: '<=' | '>=', right: number];

/** Evaluates design after design: objectives to minimise, and limits. */
export function problemOf(
  vary: readonly Varied[],
  objectives: (x: readonly number[]) => readonly number[],
  limits: (x: readonly number[]) => readonly Limit[] = () => [],
): Problem {
  const width = vary.length;
  const width2 = objectives(vary.map((v) => (v.kind === 'number' ? v.levels[0]! : 0))).length;
  return {
    vary,
    senses: Array.from({ length: width2 }, () => 'minimise' as const),
    evaluate(batch) {
      const { count, values } = batch;
      const feasible = new Uint8Array(count);
      const violation = new Float64Array(count);
      const columns = new Float64Array(width2 * count);
      for (let i = 0; i < count; i++) {
        const x = [...values.subarray(i * width, (i + 1) * width)];
        objectives(x).forEach((f, o) => {
          columns[o * count + i] = f;
        });
        for (const [left, comparison, right] of limits(x)) {
          if (!meets(comparison, left, right)) violation[i]! += limitExcess(left, right);
        }
        feasible[i] = violation[i] === 0 ? 1 : 0;
      }
      return { ...batch, feasible, violation, objectives: columns };
    },
    gaps: ({ values }) => Float64Array.from(limits([...values]), (limit) => limitGap(...limit)),
  };
}

function unitAxes(n: number): Varied[] {
  return Array.from({ length: n }, (_, i) => variedRange(`x${i}`, 0, 1));
}

function sampled(n: number, at: (t: number) => readonly number[]): number[][] {
  return Array.from({ length: n + 1 }, (_, i) => [...at(i / n)]);
}

/** ZDT1 to ZDT3: E. Zitzler, K. Deb, L. Thiele, Evol. Comput. 8 (2000) 173-195; thirty variables. */
function zdt(h: (f1: number, g: number) => number, front: readonly (readonly number[])[]): FrontProblem {
  const n = 30;
  const problem = problemOf(unitAxes(n), ([f1, ...rest]) => {
    const g = 1 + (9 * rest.reduce((sum, x) => sum + x, 0)) / (n - 1);
    return [f1!, g * h(f1!, g)];
  });
  return { ...problem, front, reference: [1.1, 1.1] };
}

const H1 = (f1: number, g: number) => 1 - Math.sqrt(f1 / g);
const H2 = (f1: number, g: number) => 1 - (f1 / g) ** 2;
const H3 = (f1: number, g: number) => 1 - Math.sqrt(f1 / g) - (f1 / g) * Math.sin(10 * Math.PI * f1);
const onFront = (h: typeof H1) => sampled(1000, (t) => [t, h(t, 1)]);
/** The pieces of the front of ZDT3, recomputed from its definition. */
const ZDT3_PIECES = [
  [0, 0.083001],
  [0.182229, 0.257762],
  [0.409314, 0.453882],
  [0.618397, 0.652512],
  [0.823332, 0.851833],
] as const;

export const ZDT1 = zdt(H1, onFront(H1));
export const ZDT2 = zdt(H2, onFront(H2));
export const ZDT3 = zdt(
  H3,
  ZDT3_PIECES.flatMap(([from, to]) =>
    sampled(200, (t) => [from + (to - from) * t]).map(([x]) => [x!, H3(x!, 1)]),
  ),
);

/** DTLZ2 in three objectives, ten distance variables: K. Deb et al., CEC 2002; the front is an octant of the sphere. */
export const DTLZ2: FrontProblem = (() => {
  const problem = problemOf(unitAxes(12), ([a, b, ...rest]) => {
    const g = 1 + rest.reduce((sum, x) => sum + (x - 0.5) ** 2, 0);
    const [u, v] = [(a! * Math.PI) / 2, (b! * Math.PI) / 2];
    return [g * Math.cos(u) * Math.cos(v), g * Math.cos(u) * Math.sin(v), g * Math.sin(u)];
  });
  const front = sampled(40, (t) => [t]).flatMap(([s]) =>
    sampled(40, (t) => {
      const [u, v] = [(s! * Math.PI) / 2, (t * Math.PI) / 2];
      return [Math.cos(u) * Math.cos(v), Math.cos(u) * Math.sin(v), Math.sin(u)];
    }),
  );
  return { ...problem, front, reference: [1.1, 1.1, 1.1] };
})();

/** T. T. Binh, U. Korn 1997, with the front as K. Deb 2001 derives it: x1 = x2 up to 3, then x2 = 3. */
export const BNH: FrontProblem = (() => {
  const objectives = ([x, y]: readonly number[]) => [
    4 * x! ** 2 + 4 * y! ** 2,
    (x! - 5) ** 2 + (y! - 5) ** 2,
  ];
  return {
    ...problemOf([variedRange('x', 0, 5), variedRange('y', 0, 3)], objectives, ([x, y]) => [
      [(x! - 5) ** 2 + y! ** 2, '<=', 25],
      [(x! - 8) ** 2 + (y! + 3) ** 2, '>=', 7.7],
    ]),
    front: sampled(1000, (t) => objectives([5 * t, Math.min(5 * t, 3)])),
    reference: [150, 55],
  };
})();

/** N. Srinivas, K. Deb, Evol. Comput. 2 (1994) 221-248; on the front x1 = -2.5 and f1 + f2 = -0.25. */
export const SRN: FrontProblem = (() => {
  const objectives = ([x, y]: readonly number[]) => [
    2 + (x! - 2) ** 2 + (y! - 1) ** 2,
    9 * x! - (y! - 1) ** 2,
  ];
  const farthest = Math.sqrt(225 - 2.5 ** 2);
  return {
    ...problemOf([variedRange('x', -20, 20), variedRange('y', -20, 20)], objectives, ([x, y]) => [
      [x! ** 2 + y! ** 2, '<=', 225],
      [x! - 3 * y!, '<=', -10],
    ]),
    front: sampled(1000, (t) => objectives([-2.5, 2.5 + (farthest - 2.5) * t])),
    reference: [230, 0],
  };
})();

/** M. Tanaka et al. 1995: the objectives are the variables, and the front is the part of a wavy limit that is not dominated. */
export const TNK: FrontProblem = (() => {
  const wave = (x: number, y: number) => 1 + 0.1 * Math.cos(16 * Math.atan2(x, y));
  const limit = sampled(4000, (t) => {
    const angle = (t * Math.PI) / 2;
    // on the limit: the radius that the angle asks for
    const radius = Math.sqrt(1 + 0.1 * Math.cos(16 * angle));
    return [radius * Math.sin(angle), radius * Math.cos(angle)];
  }).filter(([x, y]) => (x! - 0.5) ** 2 + (y! - 0.5) ** 2 <= 0.5);
  const front = limit.filter(
    ([x, y]) => !limit.some(([a, b]) => a! <= x! && b! <= y! && (a! < x! || b! < y!)),
  );
  return {
    ...problemOf(
      [variedRange('x', 0, Math.PI), variedRange('y', 0, Math.PI)],
      ([x, y]) => [x!, y!],
      ([x, y]) => [
        [x! ** 2 + y! ** 2, '>=', wave(x!, y!)],
        [(x! - 0.5) ** 2 + (y! - 0.5) ** 2, '<=', 0.5],
      ],
    ),
    front,
    reference: [1.15, 1.15],
  };
})();

/** ZDT6 of the same paper as ZDT1: ten variables, and designs crowd where the front is not; f1 is at least 0.2807753191. */
export const ZDT6: FrontProblem = (() => {
  const f1 = (x: number) => 1 - Math.exp(-4 * x) * Math.sin(6 * Math.PI * x) ** 6;
  const problem = problemOf(unitAxes(10), ([x, ...rest]) => {
    const g = 1 + 9 * (rest.reduce((sum, y) => sum + y, 0) / 9) ** 0.25;
    return [f1(x!), g * (1 - (f1(x!) / g) ** 2)];
  });
  const least = 0.2807753191;
  return {
    ...problem,
    front: sampled(1000, (t) => [least + (1 - least) * t]).map(([f]) => [f!, 1 - f! ** 2]),
    reference: [1.1, 1.1],
  };
})();

/** C. M. Fonseca, P. J. Fleming 1995, in three variables: on the front all are equal, within 1/sqrt(3) of 0. */
export const FONSECA: FrontProblem = (() => {
  const end = 1 / Math.sqrt(3);
  const objectives = (x: readonly number[]) => [
    1 - Math.exp(-x.reduce((sum, y) => sum + (y - end) ** 2, 0)),
    1 - Math.exp(-x.reduce((sum, y) => sum + (y + end) ** 2, 0)),
  ];
  return {
    ...problemOf(
      ['x', 'y', 'z'].map((name) => variedRange(name, -4, 4)),
      objectives,
    ),
    front: sampled(1000, (t) => objectives([1, 1, 1].map(() => end * (2 * t - 1)))),
    reference: [1.1, 1.1],
  };
})();

/** A. Osyczka, S. Kundu, Struct. Optim. 10 (1995) 94-99; the five pieces of its front as K. Deb 2001 tells them (from memory). */
export const OSY: FrontProblem = (() => {
  const objectives = ([a, b, c, d, e, f]: readonly number[]) => [
    -(25 * (a! - 2) ** 2 + (b! - 2) ** 2 + (c! - 1) ** 2 + (d! - 4) ** 2 + (e! - 1) ** 2),
    a! ** 2 + b! ** 2 + c! ** 2 + d! ** 2 + e! ** 2 + f! ** 2,
  ];
  const limits = ([a, b, c, d, e, f]: readonly number[]): Limit[] => [
    [a! + b!, '>=', 2],
    [a! + b!, '<=', 6],
    [b! - a!, '<=', 2],
    [a! - 3 * b!, '<=', 2],
    [(c! - 3) ** 2 + d!, '<=', 4],
    [(e! - 3) ** 2 + f!, '>=', 4],
  ];
  const piece = (at: (t: number) => readonly number[]) => sampled(200, (t) => objectives(at(t)));
  const ranges: [number, number][] = [
    [0, 10],
    [0, 10],
    [1, 5],
    [0, 6],
    [1, 5],
    [0, 10],
  ];
  return {
    ...problemOf(
      ranges.map(([from, to], i) => variedRange(`x${i}`, from, to)),
      objectives,
      limits,
    ),
    front: [
      ...piece((t) => [5, 1, 1 + 4 * t, 0, 5, 0]),
      ...piece((t) => [5, 1, 1 + 4 * t, 0, 1, 0]),
      ...piece((t) => [4.056 + 0.944 * t, (2.056 + 0.944 * t) / 3, 1, 0, 1, 0]),
      ...piece((t) => [0, 2, 1 + 2.732 * t, 0, 1, 0]),
      ...piece((t) => [t, 2 - t, 1, 0, 1, 0]),
    ],
    reference: [0, 80],
  };
})();

/** ZDT4 of the same paper as ZDT1: ten variables, and 21^9 local fronts behind the front of ZDT1. */
export const ZDT4: FrontProblem = (() => {
  const vary = [
    variedRange('x0', 0, 1),
    ...Array.from({ length: 9 }, (_, i) => variedRange(`x${i + 1}`, -5, 5)),
  ];
  const problem = problemOf(vary, ([f1, ...rest]) => {
    const g = 91 + rest.reduce((sum, x) => sum + x ** 2 - 10 * Math.cos(4 * Math.PI * x), 0);
    return [f1!, g * H1(f1!, g)];
  });
  return { ...problem, front: onFront(H1), reference: [1.1, 1.1] };
})();

/**
 * A gear train: four numbers of teeth from 12 to 60, the error of its ratio against the largest gear. K. Deb, A. Pratap, S. Moitra,
 * Mechanical component design for multiple objectives using elitist non-dominated sorting GA, PPSN VI, LNCS 1917 (2000) 859-868
 * (from memory). The error is its size here, not its square, and the first two teeth are lists instead of ranges. The front is
 * found by trying all.
 */
export const GEARS: FrontProblem = (() => {
  const teeth = Array.from({ length: 49 }, (_, i) => 12 + i);
  const error = (a: number, b: number, c: number, d: number) => Math.abs(1 / 6.931 - (a * b) / (c * d));
  const vary = [
    ...['a', 'b'].map((name) => variedNumber(name, teeth)),
    ...['c', 'd'].map((name) => variedRange(name, 12, 60, { integer: true })),
  ];
  const problem = problemOf(vary, ([a, b, c, d]) => [error(a!, b!, c!, d!), Math.max(a!, b!, c!, d!)]);
  const least = new Map<number, number>();
  const pairs = teeth.flatMap((a) => teeth.filter((b) => b >= a).map((b) => [a, b] as const));
  for (const [a, b] of pairs) {
    for (const [c, d] of pairs) {
      const largest = Math.max(b, d);
      least.set(largest, Math.min(least.get(largest) ?? Number.POSITIVE_INFINITY, error(a, b, c, d)));
    }
  }
  return { ...problem, front: [...least].map(([largest, by]) => [by, largest]), reference: [0.9, 61] };
})();
