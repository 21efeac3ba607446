import { loopField } from '../../src/kernel/loops.ts';
import { complexCholesky, solveLower, solveUpper } from '../../src/math/complex-cholesky.ts';
import { gaussLegendre } from '../../src/math/gauss-legendre.ts';

/**
 * A second, independent way to the currents of flat sheets of any outline, for tests and for the error of plates that
 * are no discs: stream functions linear over triangles, so that each triangle carries an even current, and
 *   (R + jwM) psi = -jw e I,  R_ij = sum rho_s A K_i.K_j,  M_ij = mu0/4pi sum K_i.K_j int int 1/|r - r'|,
 *   e_i = int psi_i B_z dA,
 * with everything in real space: the potential of a triangle in closed form, the coil as circles whose field comes from
 * elliptic integrals. No Hankel transform, no addition theorem. Sources: D. R. Wilton et al., IEEE Trans. Antennas
 * Propag. 32 (1984) 276-281, for the potential of a triangle (from memory; checked against quadrature in the tests);
 * the method is the boundary-element one of gradient-coil design (G. N. Peeren, J. Comput. Phys. 191 (2003) 305-321,
 * from memory).
 *
 * Past 300 lines with mesh, matrix and forces together: a reference is read in one piece.
 */
export interface Mesh {
  /** Nodes x, y and triangles of three nodes. */
  readonly x: number[];
  readonly y: number[];
  readonly triangles: [number, number, number][];
  /** Nodes at the rim, where the stream function is zero. */
  readonly rim: boolean[];
  /** Nodes in a hole and on its rim, which share one value: no current, but flux, between them. */
  readonly hole: boolean[];
}

/** Six triangles round the middle, rings of 6i nodes; a hole takes as many rings as its share of the radius. */
export function discMesh(radius: number, rings: number, hole = 0): Mesh {
  const mesh: Mesh = { x: [0], y: [0], triangles: [], rim: [false], hole: [hole > 0] };
  const first = (i: number) => (i === 0 ? 0 : 1 + 3 * i * (i - 1));
  const inside = Math.round((rings * hole) / radius);
  for (let i = 1; i <= rings; i++) {
    // denser toward the rims, where the current crowds
    const share = (i - inside) / (rings - inside);
    const across = inside > 0 ? (1 - Math.cos(Math.PI * share)) / 2 : Math.sin((Math.PI / 2) * share) ** 0.9;
    const r = i <= inside ? (hole * i) / inside : hole + (radius - hole) * across;
    for (let j = 0; j < 6 * i; j++) {
      const angle = (2 * Math.PI * j) / (6 * i);
      mesh.x.push(r * Math.cos(angle));
      mesh.y.push(r * Math.sin(angle));
      mesh.rim.push(i === rings);
      mesh.hole.push(i <= inside);
    }
    const outer = (j: number) => first(i) + (j % (6 * i));
    const inner = (j: number) => (i === 1 ? 0 : first(i - 1) + (j % (6 * (i - 1))));
    for (let sector = 0; sector < 6; sector++) {
      for (let j = 0; j < i; j++) {
        const o = sector * i + j;
        const n = sector * (i - 1) + j;
        mesh.triangles.push([outer(o), outer(o + 1), inner(n)]);
        if (j < i - 1) mesh.triangles.push([inner(n), outer(o + 1), inner(n + 1)]);
      }
    }
  }
  return mesh;
}

/** A rectangle cut into cells of two triangles each, smaller toward its sides. */
export function rectangleMesh(width: number, height: number, across: number, along: number): Mesh {
  const place = (size: number, i: number, count: number) => (-size / 2) * Math.cos((Math.PI * i) / count);
  const mesh: Mesh = { x: [], y: [], triangles: [], rim: [], hole: [] };
  for (let i = 0; i <= across; i++) {
    for (let j = 0; j <= along; j++) {
      mesh.x.push(place(width, i, across));
      mesh.y.push(place(height, j, along));
      mesh.rim.push(i === 0 || j === 0 || i === across || j === along);
      mesh.hole.push(false);
    }
  }
  for (let i = 0; i < across; i++) {
    for (let j = 0; j < along; j++) {
      const a = i * (along + 1) + j;
      const [b, c, d] = [a + along + 1, a + along + 2, a + 1];
      if ((i + j) % 2 === 0) mesh.triangles.push([a, b, c], [a, c, d]);
      else mesh.triangles.push([a, b, d], [b, c, d]);
    }
  }
  return mesh;
}

/** A sheet: depth of its plane below the bare surface, m, and resistance of a square, ohm. */
export interface Sheet {
  readonly depth: number;
  readonly square: number;
}

export interface Circle {
  readonly radius: number;
  /** Above the coil's plate-side face, m. */
  readonly level: number;
  readonly turns: number;
}

/** Where a coil is: shift along x, gap, and a turn about y at a point `above` its plate-side face. */
export interface Pose {
  readonly shift: number;
  readonly gap: number;
  readonly turn?: number;
  readonly above?: number;
}

/** Gauss's circles of a winding of rectangular section. */
export function circlesOf(
  windings: readonly {
    innerRadius: number;
    outerRadius: number;
    height: number;
    offset: number;
    turns: number;
    sense: number;
  }[],
  radial = 6,
  axial = 2,
): Circle[] {
  const across = gaussLegendre(radial);
  const along = gaussLegendre(axial);
  return windings.flatMap((w) =>
    Array.from(across.nodes).flatMap((x, i) =>
      Array.from(along.nodes).map((z, j) => ({
        radius: w.innerRadius + x * (w.outerRadius - w.innerRadius),
        level: w.offset + z * w.height,
        turns: w.sense * w.turns * across.weights[i]! * along.weights[j]!,
      })),
    ),
  );
}

/** Points and weights over a triangle (barycentric), exact to degree 5: Radon's seven points. */
const SEVEN: readonly (readonly [number, number, number, number])[] = (() => {
  const a = (6 - Math.sqrt(15)) / 21;
  const b = (6 + Math.sqrt(15)) / 21;
  const wa = (155 - Math.sqrt(15)) / 1200;
  const wb = (155 + Math.sqrt(15)) / 1200;
  const third = 1 / 3;
  return [
    [third, third, third, 9 / 40],
    [a, a, 1 - 2 * a, wa],
    [a, 1 - 2 * a, a, wa],
    [1 - 2 * a, a, a, wa],
    [b, b, 1 - 2 * b, wb],
    [b, 1 - 2 * b, b, wb],
    [1 - 2 * b, b, b, wb],
  ];
})();

const MU0 = 4e-7 * Math.PI;

export class SheetStack {
  private readonly mesh: Mesh;
  private readonly sheets: readonly Sheet[];
  private readonly omega: number;
  /** Unknown of each node, -1 at the rim, and unknowns of a sheet. */
  private readonly index: Int32Array;
  private readonly each: number;
  private readonly size: number;
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  private readonly diagonal: Float64Array;
  /** Of each triangle: area and the gradient of its three node functions. */
  private readonly area: number[] = [];
  private readonly gradient: [number, number][][] = [];

  constructor(mesh: Mesh, sheets: readonly Sheet[], omega: number) {
    this.mesh = mesh;
    this.sheets = sheets;
    this.omega = omega;
    const free = mesh.x.map((_, n) => n).filter((n) => !mesh.rim[n] && !mesh.hole[n]);
    const pierced = mesh.hole.includes(true) ? 1 : 0;
    this.index = new Int32Array(mesh.x.length).fill(-1);
    free.forEach((node, i) => {
      this.index[node] = pierced + i;
    });
    mesh.hole.forEach((inHole, node) => {
      if (inHole) this.index[node] = 0;
    });
    this.each = free.length + pierced;
    for (const [a, b, c] of mesh.triangles) {
      const { x, y } = mesh;
      const twice = (x[b]! - x[a]!) * (y[c]! - y[a]!) - (x[c]! - x[a]!) * (y[b]! - y[a]!);
      this.area.push(Math.abs(twice) / 2);
      this.gradient.push(
        [
          [b, c],
          [c, a],
          [a, b],
        ].map(([p, q]) => [(y[p!]! - y[q!]!) / twice, (x[q!]! - x[p!]!) / twice]),
      );
    }
    this.size = this.each * sheets.length;
    this.re = new Float64Array(this.size ** 2);
    this.im = new Float64Array(this.size ** 2);
    this.diagonal = new Float64Array(2 * this.size);
    this.assemble();
    complexCholesky(this.size, this.re, this.im, this.diagonal);
  }

  /** Inductance that the sheets add to a coil, H, complex. */
  inductance(circles: readonly Circle[], pose: Pose): { re: number; im: number } {
    const e = this.excitation(circles, pose);
    const x = e.slice();
    const y = new Float64Array(this.size);
    solveLower(this.size, this.re, this.im, this.diagonal, x, y);
    let re = 0;
    let im = 0;
    for (let i = 0; i < this.size; i++) {
      re += x[i]! * x[i]! - y[i]! * y[i]!;
      im += 2 * x[i]! * y[i]!;
    }
    return { re: this.omega * im, im: -this.omega * re };
  }

  /** Mean sideways force at 1 A rms, N, on the sheets: their currents in the coil's field. */
  forceOnSheets(circles: readonly Circle[], pose: Pose): number {
    const field = circleField(circles, pose);
    let sum = 0;
    this.eachCurrent(circles, pose, (_, ky, px, py, depth) => {
      sum += ky * field(px, py, -depth);
    });
    return sum;
  }

  /** The same on an upright coil: its current in the sheets' field. */
  forceOnCoil(circles: readonly Circle[], pose: Pose): number {
    const points = 48;
    let sum = 0;
    this.eachCurrent(circles, pose, (kx, ky, px, py, depth) => {
      for (const { radius, level, turns } of circles) {
        // dF_x = I (dl_y B_z - dl_z B_y), and dl_z = 0
        const dz = pose.gap + level + depth;
        for (let p = 0; p < points; p++) {
          const angle = (2 * Math.PI * (p + 0.5)) / points;
          const rx = pose.shift + radius * Math.cos(angle) - px;
          const ry = radius * Math.sin(angle) - py;
          const square = rx * rx + ry * ry + dz * dz;
          const bz = ((MU0 / (4 * Math.PI)) * (kx * ry - ky * rx)) / (square * Math.sqrt(square));
          sum += turns * radius * Math.cos(angle) * ((2 * Math.PI) / points) * bz;
        }
      }
    });
    return sum;
  }

  /** Current times area, in phase with the coil's, at the points of all triangles; A m at 1 A. */
  private eachCurrent(
    circles: readonly Circle[],
    pose: Pose,
    take: (kx: number, ky: number, x: number, y: number, depth: number) => void,
  ): void {
    const { mesh, sheets, size, omega, gradient } = this;
    const x = this.excitation(circles, pose);
    const y = new Float64Array(size);
    solveLower(size, this.re, this.im, this.diagonal, x, y);
    solveUpper(size, this.re, this.im, this.diagonal, x, y);
    sheets.forEach(({ depth }, s) => {
      mesh.triangles.forEach((nodes, t) => {
        let kx = 0;
        let ky = 0;
        nodes.forEach((node, corner) => {
          const at = this.unknown(node, s);
          if (at < 0) return;
          // K = curl(psi z), psi = -jw Y e
          kx += omega * y[at]! * gradient[t]![corner]![1]!;
          ky -= omega * y[at]! * gradient[t]![corner]![0]!;
        });
        for (const [px, py, weight] of this.quadrature(t)) {
          const area = weight * this.area[t]!;
          take(kx * area, ky * area, px, py, depth);
        }
      });
    });
  }

  private unknown(node: number, sheet: number): number {
    const at = this.index[node]!;
    return at < 0 ? -1 : sheet * this.each + at;
  }

  private quadrature(t: number): [number, number, number][] {
    const { x, y, triangles } = this.mesh;
    const [a, b, c] = triangles[t]!;
    return SEVEN.map(([u, v, w, weight]) => [
      u * x[a]! + v * x[b]! + w * x[c]!,
      u * y[a]! + v * y[b]! + w * y[c]!,
      weight,
    ]);
  }

  private excitation(circles: readonly Circle[], pose: Pose): Float64Array {
    const e = new Float64Array(this.size);
    const field = circleField(circles, pose);
    const { triangles } = this.mesh;
    this.sheets.forEach((sheet, s) => {
      triangles.forEach((nodes, t) => {
        this.quadrature(t).forEach(([px, py, weight], q) => {
          const value = field(px, py, -sheet.depth) * weight * this.area[t]!;
          nodes.forEach((node, corner) => {
            const at = this.unknown(node, s);
            if (at >= 0) e[at] = e[at]! + value * SEVEN[q]![corner]!;
          });
        });
      });
    });
    return e;
  }

  private assemble(): void {
    const { mesh, sheets, area, gradient, size, omega } = this;
    const count = mesh.triangles.length;
    const distances = [...new Set(sheets.flatMap((a) => sheets.map((b) => Math.abs(a.depth - b.depth))))];
    const couplings = new Map(distances.map((dz) => [dz, this.potentials(dz)]));
    sheets.forEach((own, s) => {
      sheets.forEach((other, r) => {
        if (r > s) return;
        const potential = couplings.get(Math.abs(own.depth - other.depth))!;
        for (let a = 0; a < count; a++) {
          for (let b = 0; b < count; b++) {
            const mutual = (omega * MU0 * potential[a * count + b]!) / (4 * Math.PI);
            for (let i = 0; i < 3; i++) {
              const row = this.unknown(mesh.triangles[a]![i]!, s);
              if (row < 0) continue;
              for (let j = 0; j < 3; j++) {
                const column = this.unknown(mesh.triangles[b]![j]!, r);
                if (column < 0 || column > row) continue;
                const along =
                  gradient[a]![i]![0]! * gradient[b]![j]![0]! + gradient[a]![i]![1]! * gradient[b]![j]![1]!;
                const at = row * size + column;
                this.im[at] = this.im[at]! + mutual * along;
                if (a === b && r === s) this.re[at] = this.re[at]! + own.square * area[a]! * along;
              }
            }
          }
        }
      });
    });
  }

  /** int int 1/|r - r'| over all pairs of triangles, two planes dz apart. */
  private potentials(dz: number): Float64Array {
    const { x, y, triangles } = this.mesh;
    const count = triangles.length;
    const out = new Float64Array(count * count);
    const points = triangles.map((_, t) => this.quadrature(t));
    const size = this.area.map((area) => Math.sqrt(area));
    for (let a = 0; a < count; a++) {
      const [ax, ay] = points[a]![0]!;
      for (let b = 0; b <= a; b++) {
        const [bx, by] = points[b]![0]!;
        const apart = Math.hypot(ax - bx, ay - by) / (size[a]! + size[b]!);
        let sum = 0;
        if (apart < 2) {
          const [p, q, r] = triangles[b]!;
          for (const [px, py, weight] of points[a]!) {
            sum += weight * trianglePotential(px, py, dz, [x[p]!, x[q]!, x[r]!], [y[p]!, y[q]!, y[r]!]);
          }
          sum *= this.area[a]!;
        } else if (apart > 5) {
          sum = (this.area[a]! * this.area[b]!) / Math.hypot(ax - bx, ay - by, dz);
        } else {
          for (const [px, py, v] of points[a]!) {
            for (const [qx, qy, w] of points[b]!) {
              const sx = px - qx;
              const sy = py - qy;
              sum += (v * w) / Math.sqrt(sx * sx + sy * sy + dz * dz);
            }
          }
          sum *= this.area[a]! * this.area[b]!;
        }
        out[a * count + b] = sum;
        out[b * count + a] = sum;
      }
    }
    return out;
  }
}

/** int 1/|r - r'| dA over a triangle, at a point `dz` off its plane (Wilton et al. 1984, eq. 5). */
function trianglePotential(px: number, py: number, dz: number, x: number[], y: number[]): number {
  const turned = (x[1]! - x[0]!) * (y[2]! - y[0]!) - (x[2]! - x[0]!) * (y[1]! - y[0]!);
  const h = Math.abs(dz);
  let sum = 0;
  for (let i = 0; i < 3; i++) {
    const j = (i + 1) % 3;
    const length = Math.hypot(x[j]! - x[i]!, y[j]! - y[i]!);
    const tx = (x[j]! - x[i]!) / length;
    const ty = (y[j]! - y[i]!) / length;
    const from = (x[i]! - px) * tx + (y[i]! - py) * ty;
    const to = from + length;
    // distance of the edge's line, positive where the point is inside
    const across = ((x[i]! - px) * ty - (y[i]! - py) * tx) * Math.sign(turned);
    const square = across * across + h * h;
    if (square < 1e-24) continue;
    const a = Math.sqrt(from * from + square);
    const b = Math.sqrt(to * to + square);
    // the form that does not cancel, whichever side the edge lies on
    const log = from + to > 0 ? Math.log((b + to) / (a + from)) : Math.log((a - from) / (b - to));
    sum += across * log;
    if (h > 0) {
      sum -=
        h * (Math.atan((across * to) / (square + h * b)) - Math.atan((across * from) / (square + h * a)));
    }
  }
  return sum;
}

/** B_z at a point of the sheets' frame, T per A, of circles in a pose. */
function circleField(circles: readonly Circle[], pose: Pose): (x: number, y: number, z: number) => number {
  const { shift, gap, turn = 0, above = 0 } = pose;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const out = { radial: 0, axial: 0 };
  return (x, y, z) => {
    // into the coil's frame, its origin at the point about which it is turned
    const dx = x - shift;
    const dz = z - gap - above;
    const cx = dx * cos - dz * sin;
    const cz = dx * sin + dz * cos + above;
    const r = Math.hypot(cx, y);
    let sum = 0;
    for (const { radius, level, turns } of circles) {
      loopField(radius, r, cz - level, out);
      const bx = r === 0 ? 0 : (out.radial * cx) / r;
      sum += turns * (out.axial * cos - bx * sin);
    }
    return sum;
  };
}
