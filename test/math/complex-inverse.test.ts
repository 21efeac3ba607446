import { describe, expect, it } from 'vitest';
import { invertComplex } from '../../src/math/complex-inverse.ts';
import { createRandom } from '../../src/math/random.ts';

describe('invertComplex', () => {
  it('gives a matrix whose product with the first is one, pivots on the diagonal missing', () => {
    const random = createRandom(1);
    const size = 7;
    const re = Float64Array.from({ length: size * size }, () => random.unit() - 0.5);
    const im = Float64Array.from({ length: size * size }, () => random.unit() - 0.5);
    for (let i = 0; i < size; i++) {
      re[i * size + i] = 0;
      im[i * size + i] = 0;
    }
    const [a, b] = [re.slice(), im.slice()];
    invertComplex(size, a, b, new Int32Array(size));
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        let [sr, si] = [0, 0];
        for (let k = 0; k < size; k++) {
          const [x, y, u, v] = [re[i * size + k]!, im[i * size + k]!, a[k * size + j]!, b[k * size + j]!];
          sr += x * u - y * v;
          si += x * v + y * u;
        }
        expect(sr).toBeCloseTo(i === j ? 1 : 0, 12);
        expect(si).toBeCloseTo(0, 12);
      }
    }
  });
});
