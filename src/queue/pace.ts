/** How often a side of the queue looks, and how long it waits; all in ms. Tests of the queue shorten them. */
export interface Pace {
  /** A coordinator looks after what events may have missed. */
  readonly coordinatorLook: number;
  /** A worker looks for studies. */
  readonly workerLook: number;
  /** Workers that are there have seen an announcement and started their threads within this. */
  readonly meet: number;
  /** Work that is out for so long is looked after; below it nothing can have gone wrong with it. */
  readonly out: number;
  /** A batch whose worker has not renewed its claim for this long goes to another; how often that is looked for. */
  readonly claim: number;
  readonly stalled: number;
  /** A worker looks for what studies have left that nobody announces any more. */
  readonly sweep: number;
  /** A connection on which an answer is due and nothing comes for so long is closed and made again. */
  readonly silence: number;
  /** The first connection, with its first answer, must stand within this. */
  readonly firstConnection: number;
  /** A piece of work is given up on a worker after `held`, and never before `heldTimes` what the slowest took. */
  readonly held: number;
  readonly heldTimes: number;
  /** While nothing comes back, a line is printed this often. */
  readonly standstillLine: number;
}

export const PACE: Pace = Object.freeze({
  coordinatorLook: 2000,
  workerLook: 250,
  meet: 1500,
  out: 4000,
  claim: 6000,
  stalled: 3000,
  sweep: 300_000,
  // blocking commands of the queue answer after ten seconds at most
  silence: 25_000,
  firstConnection: 5000,
  held: 60_000,
  heldTimes: 20,
  standstillLine: 60_000,
});
