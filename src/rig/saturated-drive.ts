import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { REASON, STATUS } from '../model/status.ts';
import type { CoilOverPlate } from './coil-over-plate.ts';
import type { DriveSolver } from './drive-solver.ts';
import type { RigState } from './state.ts';

/**
 * A plate that saturates and the drive, each in terms of the other: from current and gap over the linear plate on, the
 * plate is saturated there and the drive solved over it, until both stand still.
 *
 * A coil that steel repels while it is saturated, near, and pulls while it is not, far, has no such point: such a rig, of
 * sheets of steel thinner than a millimetre, is `failed`.
 */
export class SaturatedDrive {
  private readonly rig: RigState;
  private readonly overPlate: CoilOverPlate;
  private readonly solver: DriveSolver;

  constructor(rig: RigState, overPlate: CoilOverPlate, solver: DriveSolver) {
    this.rig = rig;
    this.overPlate = overPlate;
    this.solver = solver;
  }

  /** The coil over the saturated plate; null without an answer, the rig then says why. */
  solve(): GapCoupling | null {
    const { rig, overPlate, solver } = this;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const { current, gap } = rig;
      const coupling = overPlate.saturate(current, gap);
      const liftoff = solver.computeAtRest(coupling);
      if (!Number.isFinite(rig.restResistance + rig.restInductance + rig.restSlopeRe)) {
        return this.fail(REASON.notFinite);
      }
      if (!solver.computeDrive(coupling, liftoff)) return null;
      const isStill =
        Math.abs(rig.current - current) <= STILL * current && Math.abs(rig.gap - gap) <= STILL * gap;
      if (isStill) return coupling;
    }
    return this.fail(REASON.notConverged);
  }

  private fail(reason: number): null {
    this.rig.status = STATUS.failed;
    this.rig.reason = reason;
    return null;
  }
}

const STILL = 1e-7;
const MOST_ROUNDS = 40;
