import type { Workforce } from '../run/workforce.ts';
import type { QueueAddress } from './address.ts';
import type { Announcement } from './announcement.ts';
import type { Pace } from './pace.ts';
import type { Packing } from './result.ts';

/** What the workers at a queue are to evaluate, and how this machine takes part. */
export interface RemoteWorkforce {
  readonly address: QueueAddress;
  readonly announcement: Announcement;
  /** Names the queue. */
  readonly stamp: string;
  readonly packing: Packing;
  /** Whether workers know the designs of a batch by their numbers, which are then all that is sent of them. */
  readonly numbered: boolean;
  /** Threads of this machine: one, to compute single designs again and what no worker brings back, or all of them. */
  readonly local: (threads: number) => Workforce;
  readonly threads: number;
  /** How long to wait for a queue from which nothing comes back, ms. */
  readonly timeout: number;
  /** What becomes of a run whose queue cannot be used at the start. */
  readonly atStart: 'refuse' | 'wait' | 'go on alone';
  /** Hears that this machine goes on by itself. */
  readonly onAlone?: () => void;
  /** Takes a line for the user. */
  readonly print: (line: string) => void;
  /** ms. */
  readonly now: () => number;
  /** For tests. */
  readonly pace?: Partial<Pace>;
}
