import { describe, expect, it } from 'vitest';
import { fitLeastSquares } from '../../src/math/least-squares.ts';
import { createRandom } from '../../src/math/random.ts';
import { gaussian } from '../support/gaussian.ts';

const FREE = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
const UP = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];

/** y = a + b x, each y with its standard uncertainty. */
function line(x: readonly number[], y: readonly number[], u: readonly number[]) {
  return {
    residuals: ([a, b]: Float64Array) => Float64Array.from(x, (at, i) => (y[i]! - a! - b! * at) / u[i]!),
    start: [0, 0],
    scale: [1, 1],
    minimum: FREE,
    maximum: UP,
  };
}

describe('fitLeastSquares', () => {
  it('gives a straight line the coefficients, variances and covariance of the closed form', () => {
    const x = [1, 2, 4, 7, 8];
    const y = [2.1, 3.9, 8.2, 13.7, 16.4];
    const u = [0.1, 0.1, 0.2, 0.3, 0.3];
    const fit = fitLeastSquares(line(x, y, u))!;
    // weighted straight line in closed form: sums over 1/u^2 (the general weighted case of JCGM 100, H.3)
    const w = u.map((each) => 1 / each ** 2);
    const sum = (f: (i: number) => number) => x.reduce((total, _, i) => total + w[i]! * f(i), 0);
    const [s, sx, sxx] = [sum(() => 1), sum((i) => x[i]!), sum((i) => x[i]! ** 2)];
    const [sy, sxy] = [sum((i) => y[i]!), sum((i) => x[i]! * y[i]!)];
    const d = s * sxx - sx * sx;
    // a linear problem is solved to rounding but for the damping, which the last step has at 1e-6 or less
    expect(fit.parameters[0]).toBeCloseTo((sxx * sy - sx * sxy) / d, 7);
    expect(fit.parameters[1]).toBeCloseTo((s * sxy - sx * sy) / d, 7);
    expect(fit.covariance![0]! / (sxx / d)).toBeCloseTo(1, 9);
    expect(fit.covariance![3]! / (s / d)).toBeCloseTo(1, 9);
    expect(fit.covariance![1]! / (-sx / d)).toBeCloseTo(1, 9);
  });

  it('reproduces the thermometer calibration of the GUM: slope, intercept and their uncertainties', () => {
    // JCGM 100:2008, H.3, table H.6: t_k in degC and corrections b_k, fitted as y1 + y2 (t - 20) (from memory)
    const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
    const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
    const fit = fitLeastSquares(
      line(
        t.map((each) => each - 20),
        b,
        b.map(() => 1),
      ),
    )!;
    const s = Math.sqrt(fit.chiSquare / (t.length - 2));
    // published: y1 = -0.1712(29), y2 = 0.00218(67), s = 0.0035, r = -0.930, to the digits given
    expect(fit.parameters[0]).toBeCloseTo(-0.1712, 4);
    expect(fit.parameters[1]).toBeCloseTo(0.00218, 5);
    expect(s).toBeCloseTo(0.0035, 4);
    expect(s * Math.sqrt(fit.covariance![0]!)).toBeCloseTo(0.0029, 4);
    expect(s * Math.sqrt(fit.covariance![3]!)).toBeCloseTo(0.00067, 5);
    const r = fit.covariance![1]! / Math.sqrt(fit.covariance![0]! * fit.covariance![3]!);
    expect(r).toBeCloseTo(-0.93, 3);
  });

  it('finds the decay of an exponential from a poor start', () => {
    const x = [0, 1, 2, 3, 4];
    const y = x.map((at) => 5 * Math.exp(-0.7 * at));
    const fit = fitLeastSquares({
      residuals: ([a, k]) => Float64Array.from(x, (at, i) => y[i]! - a! * Math.exp(-k! * at)),
      start: [1, 0.1],
      scale: [1, 0.1],
      minimum: FREE,
      maximum: UP,
    })!;
    expect(fit.converged).toBe(true);
    // exact data: what is left is the end of the search
    expect(fit.parameters[0]).toBeCloseTo(5, 6);
    expect(fit.parameters[1]).toBeCloseTo(0.7, 6);
  });

  it('stays within the bounds and says which parameter ended at one', () => {
    const fit = fitLeastSquares({
      ...line([0, 1, 2], [0, 2, 4], [1, 1, 1]),
      maximum: [Number.POSITIVE_INFINITY, 1.5],
    })!;
    expect(fit.atBound).toEqual([false, true]);
    expect(fit.parameters[1]).toBe(1.5);
    // with the slope held the intercept is the mean of y - 1.5 x
    expect(fit.parameters[0]).toBeCloseTo(0.5, 6);
  });

  it('gives no covariance where parameters cannot be told apart, and shows which by their cosines', () => {
    const fit = fitLeastSquares({
      residuals: ([a, b]) => Float64Array.from([1, 2, 3], (x) => x - (a! + b!) * x),
      start: [0, 0],
      scale: [1, 1],
      minimum: FREE,
      maximum: UP,
    })!;
    expect(fit.covariance).toBeNull();
    expect(fit.cosines[1]).toBeCloseTo(1, 9);
    expect(fit.parameters[0]! + fit.parameters[1]!).toBeCloseTo(1, 6);
  });

  it('says that there is no answer where the model has none at the start, and steps around gaps elsewhere', () => {
    const problem = {
      residuals: ([a]: Float64Array) => (a! > 3 ? null : Float64Array.of(a! - 2.9)),
      start: [4],
      scale: [1],
      minimum: [-10],
      maximum: [10],
    };
    expect(fitLeastSquares(problem)).toBeNull();
    expect(fitLeastSquares({ ...problem, start: [-5] })!.parameters[0]).toBeCloseTo(2.9, 5);
  });

  it('covers the truth with 95 % intervals in 95 % of seeded trials', () => {
    let inside = 0;
    const trials = 400;
    for (let trial = 0; trial < trials; trial++) {
      const random = createRandom(71, trial);
      const x = [0, 1, 2, 3, 4, 5];
      const y = x.map((at) => 5 * Math.exp(-0.3 * at) + 0.1 * gaussian(random));
      const fit = fitLeastSquares({
        residuals: ([a, k]) => Float64Array.from(x, (at, i) => (y[i]! - a! * Math.exp(-k! * at)) / 0.1),
        start: [4, 0.2],
        scale: [1, 0.1],
        minimum: FREE,
        maximum: UP,
      })!;
      if (Math.abs(fit.parameters[1]! - 0.3) <= 1.96 * Math.sqrt(fit.covariance![3]!)) inside++;
    }
    // 400 draws of 0.95: standard deviation 0.011, so three of them
    expect(Math.abs(inside / trials - 0.95)).toBeLessThan(0.033);
  });
});
