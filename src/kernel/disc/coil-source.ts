import { besselMoment, MOMENT_TABLE_END, momentTailP, momentTailQ } from '../../math/bessel-moment.ts';
import { decay } from '../../math/decay.ts';

/** A coaxial winding of rectangular section and uniform current density, in series with its neighbours; m. */
export interface CoilWinding {
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly height: number;
  /** From the coil's plate-side face to this winding's. */
  readonly offset: number;
  readonly turns: number;
  /** -1: wound against the others. */
  readonly sense: 1 | -1;
}

/**
 * Source amplitude of a coil at spatial frequency k, referred to its plate-side face:
 *   a(k) = sum over windings of n S(k) (1 - e^{-kh}) / k e^{-k offset},  n = turns / section area,
 *   S(k) = int_{r1}^{r2} r J1(kr) dr = (X(k r2) - X(k r1)) / k^2.
 * Its vector potential below the face is (mu0/2) int a(k) J1(kr) e^{-kz} dk per ampere.
 * Source: C. V. Dodd and W. E. Deeds, J. Appl. Phys. 39 (1968) 2829-2838, doi:10.1063/1.1656680.
 */
export function coilSource(windings: readonly CoilWinding[], k: number): number {
  let sum = 0;
  for (const { innerRadius, outerRadius, height, offset, turns, sense } of windings) {
    const density = (sense * turns) / ((outerRadius - innerRadius) * height);
    const moment = (momentOf(k * outerRadius) - momentOf(k * innerRadius)) / (k * k);
    // what cancels in the bracket for low k is below 1e-15 / (k height)
    sum += (density * moment * (1 - decay(k * height)) * decay(k * offset)) / k;
  }
  return sum;
}

/** X(x) = int_0^x t J1(t) dt for every x >= 0; see bessel-moment for its tail. */
export function momentOf(x: number): number {
  if (x < MOMENT_TABLE_END) return besselMoment(x);
  const phase = x - 0.75 * Math.PI;
  return (
    1 + Math.sqrt((2 * x) / Math.PI) * (momentTailQ(x) * Math.cos(phase) + momentTailP(x) * Math.sin(phase))
  );
}
