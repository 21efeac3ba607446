import { expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { symmetricEigen } from '../../src/math/symmetric-eigen.ts';

/** Worst of A v - lambda v and of V^T V - 1, relative to the largest eigenvalue. */
function flaw(n: number, a: Float64Array): { residual: number; orthogonality: number; values: Float64Array } {
  const v = a.slice();
  const values = new Float64Array(n);
  symmetricEigen(n, v, values);
  const largest = Math.max(...values.map(Math.abs));
  let residual = 0;
  let orthogonality = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let image = 0;
      let dot = 0;
      for (let k = 0; k < n; k++) {
        image += a[j * n + k]! * v[k * n + i]!;
        dot += v[k * n + i]! * v[k * n + j]!;
      }
      residual = Math.max(residual, Math.abs(image - values[i]! * v[j * n + i]!) / largest);
      orthogonality = Math.max(orthogonality, Math.abs(dot - (i === j ? 1 : 0)));
    }
  }
  return { residual, orthogonality, values };
}

it('solves A v = lambda v with orthonormal v, for random matrices of many sizes', () => {
  const random = createRandom(3);
  for (const n of [1, 2, 3, 10, 60]) {
    const a = new Float64Array(n * n);
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) a[i * n + j] = a[j * n + i] = random.unit() - 0.5;
    const { residual, orthogonality } = flaw(n, a);
    // some tens of roundings
    expect(residual).toBeLessThan(1e-14);
    expect(orthogonality).toBeLessThan(1e-14);
  }
});

it('knows the second difference: eigenvalues 2 - 2 cos(pi i / (n + 1))', () => {
  const n = 24;
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    a[i * n + i] = 2;
    if (i > 0) a[i * n + i - 1] = a[(i - 1) * n + i] = -1;
  }
  const values = flaw(n, a).values.sort();
  for (let i = 0; i < n; i++) {
    expect(values[i]).toBeCloseTo(2 - 2 * Math.cos((Math.PI * (i + 1)) / (n + 1)), 13);
  }
});

it('copes with diagonal, zero and wildly scaled matrices', () => {
  const scaled = Float64Array.from({ length: 400 }, (_, i) => {
    const r = Math.floor(i / 20);
    const c = i % 20;
    return 10 ** (-(r + c) / 2) / (1 + Math.abs(r - c));
  });
  expect(flaw(20, scaled).residual).toBeLessThan(1e-14);
  expect([...flaw(3, Float64Array.of(5, 0, 0, 0, -1, 0, 0, 0, 2)).values].sort()).toEqual([-1, 2, 5]);
  const zero = new Float64Array(4);
  symmetricEigen(2, zero, new Float64Array(2));
  expect([...zero]).toEqual([1, 0, 0, 1]);
});
