import { loopMutual } from '../../src/kernel/loops.ts';
import { complexCholesky, solveLower } from '../../src/math/complex-cholesky.ts';
import type { Circle } from './sheet-mesh.ts';

/**
 * A square plate as a grid of bars between cell centres, with or without bars from face to face: coupled circuits in
 * three dimensions (the partial-element method, A. E. Ruehli, IBM J. Res. Dev. 16 (1972) 470-481, from memory). What the
 * upright bars change is what currents parallel to the faces leave out. Coarse, but alike in both.
 */
export interface BarGrid {
  readonly side: number;
  readonly thickness: number;
  /** Cells along a side and through the thickness. */
  readonly across: number;
  readonly deep: number;
  readonly resistivity: number;
  readonly omega: number;
  readonly isUpright: boolean;
}

type Place = readonly [i: number, j: number, k: number];

const MU0 = 4e-7 * Math.PI;
/** Points along each edge of a bar. */
const SUB = 3;

/** Re of the inductance that the plate adds to a coil at each shift along a side, H. */
export function barInductance(
  grid: BarGrid,
  circles: readonly Circle[],
  gap: number,
  shifts: readonly number[],
): number[] {
  const { side, thickness, across, deep, resistivity, omega } = grid;
  const cell = [side / across, side / across, thickness / deep] as const;
  const { bars, loops } = layOut(grid);
  const size = loops.length;
  const mutual = mutualOf(cell);
  const re = new Float64Array(size * size);
  const im = new Float64Array(size * size);
  const volume = cell[0] * cell[1] * cell[2];
  for (let a = 0; a < size; a++) {
    for (let b = 0; b <= a; b++) {
      let resistance = 0;
      let inductance = 0;
      for (const [p, s] of loops[a]!) {
        for (const [q, t] of loops[b]!) {
          const [one, other] = [bars[p]!, bars[q]!];
          if (one.way !== other.way) continue;
          if (p === q) resistance += (s * t * resistivity * cell[one.way]! ** 2) / volume;
          inductance += s * t * mutual(one.way, one.at, other.at);
        }
      }
      re[a * size + b] = resistance;
      im[a * size + b] = omega * inductance;
    }
  }
  const diagonal = new Float64Array(2 * size);
  complexCholesky(size, re, im, diagonal);
  const out = { value: 0, slope: 0, curvature: 0 };
  return shifts.map((shift) => {
    // int A.dl along each bar: A_phi 2 pi r is the mutual inductance with a circle through the point
    const along = bars.map(({ way, at }) => {
      if (way === 2) return 0;
      let sum = 0;
      for (let n = 0; n < 3; n++) {
        const place = at.map(
          (index, axis) => (index + 0.5 + (axis === way ? (n + 0.5) / 3 : 0)) * cell[axis]!,
        );
        const x = place[0]! - side / 2 - shift;
        const y = place[1]! - side / 2;
        const r = Math.hypot(x, y);
        for (const { radius, level, turns } of circles) {
          loopMutual(radius, r, gap + level + place[2]!, out);
          const around = (turns * out.value) / (2 * Math.PI * r);
          sum += ((around * (way === 0 ? -y : x)) / r) * (cell[way]! / 3);
        }
      }
      return sum;
    });
    const x = Float64Array.from(loops, (loop) => loop.reduce((sum, [p, s]) => sum + s * along[p]!, 0));
    const y = new Float64Array(size);
    solveLower(size, re, im, diagonal, x, y);
    return omega * x.reduce((sum, value, i) => sum + 2 * value * y[i]!, 0);
  });
}

interface Bar {
  readonly way: 0 | 1 | 2;
  readonly at: Place;
}

/** Bars, and independent loops of four: all flat ones; upright ones along x everywhere, along y in one row. */
function layOut({ across: n, deep, isUpright }: BarGrid): { bars: Bar[]; loops: [number, number][][] } {
  const bars: Bar[] = [];
  const index = new Map<string, number>();
  const bar = (way: 0 | 1 | 2, ...at: Place): number => {
    const key = `${way} ${at}`;
    let found = index.get(key);
    if (found === undefined) {
      found = bars.push({ way, at }) - 1;
      index.set(key, found);
    }
    return found;
  };
  const loops: [number, number][][] = [];
  const round = (a: 0 | 1, b: 1 | 2, at: Place) => {
    const step = (way: number): Place => at.map((x, axis) => x + (axis === way ? 1 : 0)) as unknown as Place;
    loops.push([
      [bar(a, ...at), 1],
      [bar(b, ...step(a)), 1],
      [bar(a, ...step(b)), -1],
      [bar(b, ...at), -1],
    ]);
  };
  for (let k = 0; k < deep; k++) {
    for (let j = 0; j < n; j++) {
      for (let i = 0; i < n; i++) {
        if (i < n - 1 && j < n - 1) round(0, 1, [i, j, k]);
        if (!isUpright || k === deep - 1) continue;
        if (i < n - 1) round(0, 2, [i, j, k]);
        if (i === 0 && j < n - 1) round(1, 2, [i, j, k]);
      }
    }
  }
  return { bars, loops };
}

/** Mutual inductance of two parallel bars by points, by how many cells they lie apart; H. */
function mutualOf(cell: readonly [number, number, number]) {
  const points: Place[] = [];
  for (let i = 0; i < SUB; i++)
    for (let j = 0; j < SUB; j++)
      for (let k = 0; k < SUB; k++)
        points.push([(i * cell[0]) / SUB, (j * cell[1]) / SUB, (k * cell[2]) / SUB]);
  const piece = (cell[0] * cell[1] * cell[2]) / SUB ** 3;
  // mean of 1/r within a ball of a piece's volume: 6/5 over its radius
  const own = 1.2 / Math.cbrt((3 * piece) / (4 * Math.PI));
  const known = new Map<string, number>();
  return (way: 0 | 1 | 2, one: Place, other: Place): number => {
    const apart = one.map((x, axis) => Math.abs(x - other[axis]!));
    const key = `${apart}`;
    let mean = known.get(key);
    if (mean === undefined) {
      let sum = 0;
      for (const p of points) {
        for (const q of points) {
          const r = Math.hypot(...p.map((x, axis) => x - q[axis]! - apart[axis]! * cell[axis]!));
          sum += r < 1e-12 ? own : 1 / r;
        }
      }
      mean = sum / points.length ** 2;
      known.set(key, mean);
    }
    return (MU0 / (4 * Math.PI)) * cell[way]! ** 2 * mean;
  };
}
