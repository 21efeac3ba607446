import type { GapResponse } from './gap-response.ts';

/** A rig at its equilibrium, for small vertical motion about it. SI, rms. */
export interface MovingRig {
  mass: number;
  /** Viscous drag, N s/m. */
  drag: number;
  omega: number;
  current: number;
  /** Re d2 dL / d gap2 at the supply's frequency, H/m2. */
  curvature: number;
  /** True: the supply voltage stays; false: the current. */
  voltageHeld: boolean;
  /** Of the whole circuit without the plate: ohm, H, F (NaN: none). */
  resistance: number;
  freeInductance: number;
  capacitance: number;
}

export interface SmallMotion {
  /** 1/s; positive: the bounce grows. NaN where there is no bounce. */
  growth: number;
  /** Hz */
  frequency: number;
  /** Drag at which it neither grows nor dies, N s/m; 0 where it dies without. */
  neededDrag: number;
}

/**
 * Growth and frequency of the small bounce of a coil over its plate: the root of m s^2 + c s + K(s) = 0 near the static
 * one. A displacement e^{st} gives the currents of the plate, and at held voltage those of the coil, the sidebands
 * p = s +- jw. With D and its derivatives (gap-response; 1: by one gap, 11: by both, 02: twice by one),
 *   K(s) = -I^2 (Re D02(jw) + sum over p of D11(p) / 2)
 *          + voltage held: (I^2 / 2) sum over p of p (D1(jw) + D1(p)) (D1(jw)* + D1(p)) / Z(p)   (jw, or -jw for p = s - jw),
 *   Z(p) = R + p (L + D(p)) + 1 / (p C).
 * What pulsates at 2w is left out: the mean motion alone. K(0) is the stiffness of the steady state. The winding's
 * resistance is taken as that at the supply's frequency.
 *
 * Method: one step with K held, then secant steps in the complex plane. Domain: bounces slower than the supply, a
 * stable equilibrium (K(0) > 0). Accuracy: 1e-6 of |s| in the root; growth so to 1e-5 1/s in usual rigs.
 * Source: our own derivation from the coupled circuits of coil and plate; the tests hold it against motion in time.
 */
export class SmallMotionSolver {
  readonly result: SmallMotion = { growth: 0, frequency: 0, neededDrag: 0 };
  /** K at the s last evaluated. */
  private kRe = 0;
  private kIm = 0;
  private bend = 0;
  private slopeRe = 0;
  private slopeIm = 0;

  solve(rig: MovingRig, response: GapResponse): SmallMotion {
    const { result } = this;
    const { mass } = rig;
    result.growth = Number.NaN;
    result.frequency = Number.NaN;
    result.neededDrag = Number.NaN;
    response.evaluate(0, rig.omega);
    this.bend = rig.curvature / 2 - response.mixedRe;
    this.slopeRe = response.slopeRe;
    this.slopeIm = response.slopeIm;
    this.evaluate(rig, response, 0, 0);
    const stiffness = this.kRe;
    if (!(stiffness > 0)) return result;
    this.findNeededDrag(rig, response, Math.sqrt(stiffness / mass));
    this.findRoot(rig, response, 2 * Math.PI * result.frequency);
    return result;
  }

  /** Where the bounce would go on for ever: m w^2 = Re K(jw), c w = -Im K(jw). Leaves the frequency of that. */
  private findNeededDrag(rig: MovingRig, response: GapResponse, start: number): void {
    let bounce = start;
    for (let i = 0; i < MOST_STEPS; i++) {
      this.evaluate(rig, response, 0, bounce);
      const next = Math.sqrt(this.kRe / rig.mass);
      const done = !(Math.abs(next - bounce) > CLOSE_BOUNCE * bounce);
      bounce = next;
      if (done) break;
    }
    this.result.neededDrag = Math.max(0, -this.kIm / bounce);
    this.result.frequency = bounce / (2 * Math.PI);
  }

  private findRoot(rig: MovingRig, response: GapResponse, bounce: number): void {
    const { mass, drag } = rig;
    // f = m s^2 + c s + K at s = j bounce, K being the last evaluated but for what its last step left
    let sRe = 0;
    let sIm = bounce;
    let fRe = this.kRe - mass * bounce * bounce;
    let fIm = this.kIm + drag * bounce;
    // as if K did not vary: f' = 2 m s + c
    let gRe = drag;
    let gIm = 2 * mass * sIm;
    for (let i = 0; i < MOST_STEPS; i++) {
      const g2 = gRe * gRe + gIm * gIm;
      const dRe = -(fRe * gRe + fIm * gIm) / g2;
      const dIm = -(fIm * gRe - fRe * gIm) / g2;
      sRe += dRe;
      sIm += dIm;
      const step = Math.hypot(dRe, dIm);
      if (!(step > CLOSE_ROOT * Math.hypot(sRe, sIm))) break;
      this.evaluate(rig, response, sRe, sIm);
      const nextRe = mass * (sRe * sRe - sIm * sIm) + drag * sRe + this.kRe;
      const nextIm = 2 * mass * sRe * sIm + drag * sIm + this.kIm;
      // slope of the secant
      const d2 = step * step;
      const hRe = nextRe - fRe;
      const hIm = nextIm - fIm;
      gRe = (hRe * dRe + hIm * dIm) / d2;
      gIm = (hIm * dRe - hRe * dIm) / d2;
      fRe = nextRe;
      fIm = nextIm;
    }
    const { result } = this;
    const bounces = sIm > 0 && Number.isFinite(sRe);
    result.growth = bounces ? sRe : Number.NaN;
    result.frequency = bounces ? sIm / (2 * Math.PI) : Number.NaN;
  }

  /** Fills K(s). */
  private evaluate(rig: MovingRig, response: GapResponse, sRe: number, sIm: number): void {
    const { omega, current } = rig;
    this.kRe = 0;
    this.kIm = 0;
    this.sideband(rig, response, sRe, sIm, omega);
    // a real displacement has two like sidebands; else the second is the conjugate of one at s*
    this.sideband(rig, response, sRe, -sIm, omega, true);
    const square = current * current;
    this.kRe = square * (this.kRe / 2 - this.bend);
    this.kIm = (square * this.kIm) / 2;
  }

  /** Adds to K, in units of I^2 / 2, what the sideband p = s + jw gives, or the conjugate of that. */
  private sideband(
    rig: MovingRig,
    response: GapResponse,
    sRe: number,
    sIm: number,
    omega: number,
    conjugate = false,
  ): void {
    const pRe = sRe;
    const pIm = sIm + omega;
    response.evaluate(pRe, pIm);
    let re = -response.mixedRe;
    let im = -response.mixedIm;
    if (rig.voltageHeld) {
      const { valueRe, valueIm, slopeRe, slopeIm } = response;
      const p2 = pRe * pRe + pIm * pIm;
      const lRe = rig.freeInductance + valueRe;
      let zRe = rig.resistance + pRe * lRe - pIm * valueIm;
      let zIm = pIm * lRe + pRe * valueIm;
      if (!Number.isNaN(rig.capacitance)) {
        zRe += pRe / (p2 * rig.capacitance);
        zIm -= pIm / (p2 * rig.capacitance);
      }
      // (D1(jw) + D1(p)) (D1(jw)* + D1(p))
      const aRe = this.slopeRe + slopeRe;
      const aIm = this.slopeIm + slopeIm;
      const bIm = slopeIm - this.slopeIm;
      const cRe = aRe * aRe - aIm * bIm;
      const cIm = aRe * (aIm + bIm);
      const nRe = pRe * cRe - pIm * cIm;
      const nIm = pRe * cIm + pIm * cRe;
      const z2 = zRe * zRe + zIm * zIm;
      re += (nRe * zRe + nIm * zIm) / z2;
      im += (nIm * zRe - nRe * zIm) / z2;
    }
    this.kRe += re;
    this.kIm += conjugate ? -im : im;
  }
}

const MOST_STEPS = 20;
/** The drag that is needed changes with the square of what is left of this. */
const CLOSE_BOUNCE = 1e-4;
/** The error left after a secant step this small is far below it. */
const CLOSE_ROOT = 1e-6;
