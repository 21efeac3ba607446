import type { CoilWinding } from '../../src/kernel/disc/coil-source.ts';
import type { DiscSpec } from '../../src/kernel/disc/disc-spec.ts';
import { loopMutual } from '../../src/kernel/loops.ts';
import { complexCholesky, solveLower } from '../../src/math/complex-cholesky.ts';
import { gaussLegendre } from '../../src/math/gauss-legendre.ts';

/**
 * The classical model of a disc, independent of the one under test: coaxial rings of rectangular section, each with
 * uniform current density, mutual inductances by elliptic integrals between filaments at Gauss points of the
 * sections, self inductance mu0 r (ln(8 r / g) - 2) with the geometric mean distance g = 0.2235 (w + h) of a
 * rectangle from itself (J. C. Maxwell; E. B. Rosa, Bull. Bureau of Standards 4 (1908) 301, from memory).
 * dL and d dL/d gap of a coil at one gap; converges as the square of the ring's size.
 *
 * @param columns number of rings over the radius
 * @param rows number of rings over the thickness of each layer
 * @param rim the outermost ring's width over the innermost's (1: even)
 */
export function ringReference(
  spec: DiscSpec,
  windings: readonly CoilWinding[],
  gap: number,
  columns: number,
  rows: number,
  rim = 1,
): { inductance: [number, number]; slope: [number, number] } {
  const rings = makeRings(spec, columns, rows, rim);
  const size = rings.length;
  const re = new Float64Array(size * size);
  const im = new Float64Array(size * size);
  const { angularFrequency: omega } = spec;
  for (let i = 0; i < size; i++) {
    const a = rings[i]!;
    // the exact resistance of a ring with uniform current density
    re[i * size + i] = (2 * Math.PI * a.resistivity * a.radius) / (a.width * a.height);
    for (let j = 0; j < i; j++) im[i * size + j] = omega * ringMutual(a, rings[j]!);
    im[i * size + i] =
      omega * MU0 * a.radius * (Math.log((8 * a.radius) / (0.2235 * (a.width + a.height))) - 2);
  }
  const diagonal = new Float64Array(2 * size);
  complexCholesky(size, re, im, diagonal);
  const value = rings.map((ring) => coilMutual(ring, windings, gap));
  const m = solved(
    size,
    re,
    im,
    diagonal,
    value.map((v) => v.value),
  );
  const d = solved(
    size,
    re,
    im,
    diagonal,
    value.map((v) => v.slope),
  );
  const square = (a: Complex, b: Complex): [number, number] => {
    let x = 0;
    let y = 0;
    for (let i = 0; i < size; i++) {
      x += a.re[i]! * b.re[i]! - a.im[i]! * b.im[i]!;
      y += a.re[i]! * b.im[i]! + a.im[i]! * b.re[i]!;
    }
    // times -jw
    return [omega * y, -omega * x];
  };
  const [slopeRe, slopeIm] = square(m, d);
  return { inductance: square(m, m), slope: [2 * slopeRe, 2 * slopeIm] };
}

const MU0 = 4e-7 * Math.PI;

interface Ring {
  radius: number;
  depth: number;
  width: number;
  height: number;
  resistivity: number;
}

interface Complex {
  re: Float64Array;
  im: Float64Array;
}

function makeRings(spec: DiscSpec, columns: number, rows: number, rim: number): Ring[] {
  const ratio = columns > 1 ? rim ** (1 / (columns - 1)) : 1;
  const shares = Array.from({ length: columns }, (_, i) => ratio ** i);
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const rings: Ring[] = [];
  let top = 0;
  for (const { thickness, resistivity } of spec.layers) {
    for (let row = 0; row < rows; row++) {
      let inner = spec.innerRadius;
      for (const share of shares) {
        const width = ((spec.radius - spec.innerRadius) * share) / whole;
        const height = thickness / rows;
        rings.push({
          radius: inner + width / 2,
          depth: top + (row + 0.5) * height,
          width,
          height,
          resistivity,
        });
        inner += width;
      }
    }
    top += thickness;
  }
  return rings;
}

const mutual = { value: 0, slope: 0, curvature: 0 };
const MIDDLE = gaussLegendre(1);
const CLOSE = gaussLegendre(5);
const COIL = gaussLegendre(12);

function ringMutual(a: Ring, b: Ring): number {
  const distance = Math.hypot(a.radius - b.radius, a.depth - b.depth);
  const rule = distance < 3 * Math.max(a.width, a.height, b.width, b.height) ? CLOSE : MIDDLE;
  // an odd and an even rule never put two filaments on the same spot
  const other = rule === CLOSE ? BESIDE : MIDDLE;
  let sum = 0;
  over(a, rule, (r, z, weight) => {
    over(b, other, (s, y, share) => {
      loopMutual(r, s, z - y, mutual);
      sum += weight * share * mutual.value;
    });
  });
  return sum;
}

const BESIDE = gaussLegendre(6);

function over(ring: Ring, rule: typeof MIDDLE, visit: (r: number, z: number, weight: number) => void): void {
  for (let i = 0; i < rule.nodes.length; i++) {
    for (let j = 0; j < rule.nodes.length; j++) {
      visit(
        ring.radius + ring.width * (rule.nodes[i]! - 0.5),
        ring.depth + ring.height * (rule.nodes[j]! - 0.5),
        rule.weights[i]! * rule.weights[j]!,
      );
    }
  }
}

/** Mutual inductance of a coil and a ring, and its derivative by the gap. */
function coilMutual(ring: Ring, windings: readonly CoilWinding[], gap: number) {
  let value = 0;
  let slope = 0;
  over(ring, TWO, (r, z, share) => {
    for (const { innerRadius, outerRadius, height, offset, turns, sense } of windings) {
      for (let i = 0; i < COIL.nodes.length; i++) {
        for (let j = 0; j < COIL.nodes.length; j++) {
          const radius = innerRadius + (outerRadius - innerRadius) * COIL.nodes[i]!;
          loopMutual(radius, r, gap + offset + height * COIL.nodes[j]! + z, mutual);
          const weight = sense * turns * share * COIL.weights[i]! * COIL.weights[j]!;
          value += weight * mutual.value;
          slope += weight * mutual.slope;
        }
      }
    }
  });
  return { value, slope };
}

const TWO = gaussLegendre(2);

function solved(
  size: number,
  re: Float64Array,
  im: Float64Array,
  diagonal: Float64Array,
  right: number[],
): Complex {
  const x = { re: Float64Array.from(right), im: new Float64Array(size) };
  solveLower(size, re, im, diagonal, x.re, x.im);
  return x;
}
