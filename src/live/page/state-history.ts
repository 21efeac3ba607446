import { isSameState, type RigState } from '../rig-state.ts';

/** The states that were, for undo and redo. Steps of a drag are none of them. */
export class StateHistory {
  private kept: RigState;
  private readonly past: RigState[] = [];
  private readonly future: RigState[] = [];

  constructor(start: RigState) {
    this.kept = start;
  }

  get canUndo(): boolean {
    return this.past.length > 0;
  }

  get canRedo(): boolean {
    return this.future.length > 0;
  }

  keep(state: RigState): void {
    if (isSameState(this.kept, state)) return;
    this.past.push(this.kept);
    this.future.length = 0;
    this.kept = state;
  }

  /** Null where there is nothing to go back to. */
  undo(): RigState | null {
    return this.travel(this.past, this.future);
  }

  redo(): RigState | null {
    return this.travel(this.future, this.past);
  }

  private travel(from: RigState[], to: RigState[]): RigState | null {
    const next = from.pop();
    if (!next) return null;
    to.push(this.kept);
    this.kept = next;
    return next;
  }
}
