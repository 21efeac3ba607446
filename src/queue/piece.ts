import type { Work } from '../plan/plan.ts';
import type { Done } from '../run/workforce.ts';

/** A piece of work that was handed out and has not come back. */
export interface Piece {
  readonly number: number;
  readonly work: Work;
  readonly resolve: (done: Done) => void;
  readonly reject: (error: unknown) => void;
  /** When it was handed out, and when a worker claimed it, ms. */
  since: number;
  heldSince: number | null;
  /** Its turn among those that are looked after. */
  looked: number;
  tries: number;
  /** A result is being computed again. */
  checking: boolean;
}
