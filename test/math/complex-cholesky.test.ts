import { describe, expect, it } from 'vitest';
import { complexCholesky, solveLower, solveUpper } from '../../src/math/complex-cholesky.ts';

describe('complexCholesky', () => {
  it('solves the coupled circuits of coils with resistance to rounding', () => {
    const size = 12;
    // Hilbert's matrix is positive definite, and as ill-conditioned as the inductances of close coils
    const re = Float64Array.from({ length: size * size }, (_, i) => (i % (size + 1) === 0 ? 0.01 : 0));
    const im = Float64Array.from(
      { length: size * size },
      (_, i) => 1 / (Math.floor(i / size) + (i % size) + 1),
    );
    const solution = Array.from({ length: size }, (_, i) => [Math.cos(i), Math.sin(3 * i)] as const);
    const x = new Float64Array(size);
    const y = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        const [u, v] = solution[j]!;
        x[i]! += re[i * size + j]! * u - im[i * size + j]! * v;
        y[i]! += re[i * size + j]! * v + im[i * size + j]! * u;
      }
    }
    const diagonal = new Float64Array(2 * size);
    complexCholesky(size, re, im, diagonal);
    solveLower(size, re, im, diagonal, x, y);
    solveUpper(size, re, im, diagonal, x, y);
    solution.forEach(([u, v], i) => {
      // epsilon times the condition number, 1.8 / 0.01
      expect(Math.abs(x[i]! - u)).toBeLessThan(1e-12);
      expect(Math.abs(y[i]! - v)).toBeLessThan(1e-12);
    });
  });
});
