import type { KeptModes } from './disc-plates.ts';
import type { KeptSideways } from './sideways-plates.ts';

/** What whoever looks at one design in several ways, or at several over one plate, shares of it. It follows from its key alone. */
export interface KeptPlates {
  readonly modes: KeptModes;
  readonly sideways: KeptSideways;
}

export function keepPlates(): KeptPlates {
  return { modes: new Map(), sideways: new Map() };
}
