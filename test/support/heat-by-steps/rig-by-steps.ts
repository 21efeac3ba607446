import type { WindingBody } from '../../../src/kernel/coil-heat.ts';
import type { PlateBody } from '../../../src/kernel/plate-heat.ts';
import { type Vessel, vesselLoss } from '../../../src/kernel/vessel-heat.ts';
import { DormandPrince } from './dormand-prince.ts';
import { convection, radiation, WindingByDefinition, type WindingMode } from './winding-by-definition.ts';

/** A rig as warm bodies with the current held; K. */
export interface WarmRig {
  readonly windings: readonly WindingBody[];
  /** null: held at `plateHeld`. */
  readonly plate: PlateBody | null;
  readonly plateStart: number;
  readonly vessel: Vessel | null;
  /** The load's last temperature, K; Infinity without one. */
  readonly plateMost: number;
  readonly room: number;
}

export interface Course {
  /** Steady temperatures: means, plate; null where it runs away. */
  readonly steady: Float64Array | null;
  readonly hottest: number;
  readonly surface: number;
  readonly onTime: number;
  readonly means: Float64Array;
  readonly loadTime: number;
  readonly coolTime: number;
  /** Of the integration; more than `mostSteps`, times may be missing. */
  readonly steps: number;
  readonly gaveUp: boolean;
  readonly unsettled: number;
}

export const MOST_STEPS = 4000;
/** After so many steps, with nothing left to wait for, the steady state is looked for from there. */
const STIFF = 500;

/** Windings and plate by Dormand-Prince steps of the definitions. */
export class RigBySteps {
  readonly windings: readonly WindingByDefinition[];
  hottest = 0;
  surface = 0;
  mode: WindingMode = { powered: true, warming: true };
  private readonly rig: WarmRig;

  constructor(rig: WarmRig) {
    this.rig = rig;
    this.windings = rig.windings.map((body) => new WindingByDefinition(body));
  }

  /** K/s. */
  readonly rates = (y: Float64Array, rate: Float64Array): void => {
    this.powers(y, rate);
    const { windings, plate, vessel, plateMost } = this.rig;
    const count = windings.length;
    for (let w = 0; w < count; w++) rate[w] = rate[w]! / windings[w]!.heatCapacity;
    if (plate === null || (y[count]! >= plateMost && rate[count]! > 0)) rate[count] = 0;
    else rate[count] = rate[count]! / (plate.heatCapacity + (vessel?.capacity ?? 0));
  };

  /** What comes in over what goes out, W. */
  powers(y: Float64Array, net: Float64Array): void {
    const { windings, plate, vessel, room } = this.rig;
    const count = windings.length;
    const temperature = y[count]!;
    let given = 0;
    let closed = 0;
    let unseen = 0;
    this.hottest = 0;
    this.surface = 0;
    for (let w = 0; w < count; w++) {
      const body = windings[w]!;
      const state = this.windings[w]!.evaluate(y[w]!, temperature, this.mode);
      net[w] = state.made - state.toRoom - state.toPlate;
      given += state.toPlate;
      const under = Math.PI * (body.outerRadius ** 2 - body.innerRadius ** 2) * body.filling.overlap;
      closed += under * (1 - state.plateOpen);
      unseen += under * (1 - state.plateSees);
      this.hottest = Math.max(this.hottest, state.hottest);
      this.surface = Math.max(this.surface, state.far);
    }
    if (plate === null) {
      net[count] = 0;
      return;
    }
    const face = Math.PI * (plate.radius ** 2 - plate.innerRadius ** 2);
    const rim = 2 * Math.PI * (plate.radius + plate.innerRadius) * plate.thickness;
    const kind = plate.coilFaceUp === temperature >= room ? 'free' : 'trapped';
    const length = (plate.radius - plate.innerRadius) / 2;
    const excess = temperature - room;
    let shed =
      excess *
        (convection(kind, length, temperature, room) * (face - closed) +
          convection('upright', plate.thickness, temperature, room) * rim) +
      plate.emissivity * radiation(temperature, room) * (face - unseen + rim);
    if (vessel !== null) shed += vesselLoss(vessel, temperature, room);
    net[count] = (this.mode.powered ? plate.loss : 0) + given - shed;
  }

  start(): Float64Array {
    const { windings, room, plateStart } = this.rig;
    return Float64Array.from([...windings.map(() => room), plateStart]);
  }

  /**
   * From cold until it is steady or runs away.
   * @param limit of the hottest place, K; NaN: none
   */
  course(limit: number, tolerance: number, mostSteps = MOST_STEPS): Course {
    const { windings, plateMost, room } = this.rig;
    const count = windings.length;
    this.mode = { powered: true, warming: true };
    const steps = new DormandPrince(this.start(), 1e-3, tolerance, this.rates);
    let onTime = Number.POSITIVE_INFINITY;
    let means: Float64Array | null = null;
    let loadTime = Number.POSITIVE_INFINITY;
    let steady: Float64Array | null = null;
    let ranAway = false;
    const slowest = this.slowest();
    const stiff = Math.min(STIFF, mostSteps >> 1);
    const loaded = () => plateMost === Number.POSITIVE_INFINITY || loadTime < Number.POSITIVE_INFINITY;
    let below = this.hottest - limit;
    if (below >= 0) {
      onTime = 0;
      means = steps.y.slice(0, count);
    }
    while (steps.steps < mostSteps) {
      const plateBefore = steps.y[count]! - plateMost;
      steps.advance(Number.POSITIVE_INFINITY);
      const length = steps.lastLength;
      if (plateBefore < 0 && steps.y[count]! >= plateMost) {
        locate(steps, length, plateBefore, () => steps.y[count]! - plateMost);
        if (loadTime === Number.POSITIVE_INFINITY) loadTime = steps.time;
        steps.y[count] = plateMost;
        this.rates(steps.y, steps.rates);
      }
      if (means === null && this.hottest >= limit) {
        locate(steps, steps.lastLength, below, () => this.hottest - limit);
        onTime = steps.time;
        means = steps.y.slice(0, count);
      }
      below = this.hottest - limit;
      if (!(this.hottest < 1500 && steps.y[count]! < 1500)) {
        ranAway = true;
        break;
      }
      let largest = 0;
      for (const rate of steps.rates) largest = Math.max(largest, Math.abs(rate));
      const isStiff =
        steps.steps >= stiff &&
        (steps.steps - stiff) % stiff < 2 &&
        this.isOver(steps.y, means === null ? limit : Number.NaN, loaded());
      if ((steps.time > slowest && largest * steps.time < 1e-3) || isStiff) {
        steady = steps.y.slice();
        break;
      }
    }
    const gaveUp = steady === null && !ranAway;
    if (steady !== null) this.polish(steady);
    const { hottest, surface } = this;
    means ??= steady === null ? null : steady.slice(0, count);
    let coolTime = 0;
    if (means !== null) {
      for (let w = 0; w < count; w++) {
        coolTime = Math.max(coolTime, coolDown(windings[w]!, means[w]!, room, tolerance));
      }
    }
    return {
      steady,
      hottest: ranAway ? Number.NaN : hottest,
      surface,
      onTime,
      means: means ?? new Float64Array(count).fill(Number.NaN),
      loadTime,
      coolTime: means === null ? Number.NaN : coolTime,
      steps: steps.steps,
      gaveUp,
      unsettled: this.windings.reduce((sum, each) => sum + each.unsettled, 0),
    };
  }

  /** Whether nothing is left to wait for but the steady state: the limit and the load's last temperature lie beyond it. */
  private isOver(y: Float64Array, limit: number, loaded: boolean): boolean {
    const last = y.slice();
    this.polish(last);
    const over =
      (Number.isNaN(limit) || this.hottest < limit) &&
      (loaded || last[last.length - 1]! < this.rig.plateMost);
    this.mode = { powered: true, warming: true };
    this.rates(y, new Float64Array(y.length));
    return over;
  }

  /** Time constant of the slowest body at 5 W/(m2 K), s. */
  private slowest(): number {
    const { windings, plate, vessel } = this.rig;
    let slowest = 0;
    if (plate !== null) {
      const face = Math.PI * (plate.radius ** 2 - plate.innerRadius ** 2);
      slowest = (plate.heatCapacity + (vessel?.capacity ?? 0)) / (5 * face);
    }
    for (const { innerRadius, outerRadius, height, heatCapacity } of windings) {
      const surface = 2 * Math.PI * (outerRadius + innerRadius) * (outerRadius - innerRadius + height);
      slowest = Math.max(slowest, heatCapacity / (5 * surface));
    }
    return slowest;
  }

  /** The balance without anything stored: Newton's method with differences. */
  private polish(y: Float64Array): void {
    this.mode = { powered: true, warming: false };
    const { plate, plateMost } = this.rig;
    const free = plate === null || y[y.length - 1]! >= plateMost ? y.length - 1 : y.length;
    const net = new Float64Array(y.length);
    const moved = new Float64Array(y.length);
    for (let n = 0; n < 8; n++) {
      this.powers(y, net);
      const matrix: number[][] = Array.from({ length: free }, () => []);
      for (let j = 0; j < free; j++) {
        const at = y[j]!;
        y[j] = at + 1e-3;
        this.powers(y, moved);
        y[j] = at;
        for (let i = 0; i < free; i++) matrix[i]!.push((moved[i]! - net[i]!) / 1e-3);
      }
      const step = solve(
        matrix,
        Array.from(net.subarray(0, free), (each) => -each),
      );
      for (let j = 0; j < free; j++) y[j] = y[j]! + step[j]!;
    }
    this.powers(y, net);
  }
}

/** Time for a winding's mean to fall to 10 K above the room, the current off, the plate at the room's temperature, s. */
export function coolDown(body: WindingBody, from: number, room: number, tolerance: number): number {
  const to = room + 10;
  if (from <= to) return 0;
  const winding = new WindingByDefinition(body);
  const mode: WindingMode = { powered: false, warming: true };
  const steps = new DormandPrince(Float64Array.of(from), 1e-3, tolerance, (y, rate) => {
    const { toRoom, toPlate } = winding.evaluate(y[0]!, room, mode);
    rate[0] = -(toRoom + toPlate) / body.heatCapacity;
  });
  for (let n = 0; n < MOST_STEPS; n++) {
    const above = steps.y[0]! - to;
    steps.advance(Number.POSITIVE_INFINITY);
    if (steps.y[0]! <= to) {
      locate(steps, steps.lastLength, -above, () => to - steps.y[0]!);
      return steps.time;
    }
  }
  return Number.NaN;
}

/** Repeats the last step with the length at which `over` is zero: bisection, then secants. */
function locate(steps: DormandPrince, length: number, atStart: number, over: () => number): void {
  let short = 0;
  let long = length;
  let below = atStart;
  let above = over();
  for (let n = 0; n < 60 && long - short > 1e-12 * length; n++) {
    const secant = short + ((long - short) * below) / (below - above);
    const next = n % 3 === 2 ? (short + long) / 2 : secant;
    steps.repeat(next);
    const here = over();
    if (Math.abs(here) < 1e-9) return;
    if (here > 0) {
      long = next;
      above = here;
    } else {
      short = next;
      below = here;
    }
  }
}

/** Gaussian elimination with pivots. */
function solve(a: number[][], b: number[]): number[] {
  const n = b.length;
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let j = i + 1; j < n; j++) if (Math.abs(a[j]![i]!) > Math.abs(a[pivot]![i]!)) pivot = j;
    [a[i], a[pivot]] = [a[pivot]!, a[i]!];
    [b[i], b[pivot]] = [b[pivot]!, b[i]!];
    for (let j = i + 1; j < n; j++) {
      const f = a[j]![i]! / a[i]![i]!;
      for (let k = i; k < n; k++) a[j]![k] = a[j]![k]! - f * a[i]![k]!;
      b[j] = b[j]! - f * b[i]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) b[i] = b[i]! - a[i]![k]! * b[k]!;
    b[i] = b[i]! / a[i]![i]!;
  }
  return b;
}
