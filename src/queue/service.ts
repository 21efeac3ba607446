import type { Workforce } from '../run/workforce.ts';
import type { QueueAddress } from './address.ts';
import type { Announcement } from './announcement.ts';
import type { Pace } from './pace.ts';
import type { Packing } from './result.ts';
import type { Signer } from './signature.ts';
import type { WorkStudy } from './work-message.ts';

/** A study as the worker itself makes it out of an announced text. */
export interface OpenStudy extends WorkStudy {
  readonly title: string;
  readonly stamp: string;
  readonly packing: Packing;
  /** Starts its threads, once it is clear that they are wanted. */
  readonly start: () => Workforce;
}

export interface Service {
  readonly address: QueueAddress;
  readonly threads: number;
  /** Names this worker to coordinators: host and process. */
  readonly id: string;
  readonly signer: Signer;
  /**
   * What an announcement comes to here, or why this program cannot serve it. Takes no longer and no more memory than it
   * should, whatever the text is.
   */
  readonly open: (announcement: Announcement) => Promise<OpenStudy | { readonly unfit: string }>;
  readonly print: (line: string) => void;
  readonly signal: AbortSignal;
  readonly now: () => number;
  /** For tests. */
  readonly pace?: Partial<Pace>;
}
