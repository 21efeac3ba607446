/** How much of a generation goes to one of two ways of making children, by what came of both of late. */
export interface OperatorShare {
  /** The share of children that the second way makes. */
  readonly value: number;
  /** Tells of one child whether the second way made it, and whether it came to be on the front. */
  record(isSecond: boolean, succeeded: boolean): void;
  /** Marks the end of a generation. */
  mark(): void;
}

/** What the better way gets, and what the other one keeps, so that it can show when it is the better one. */
const SHARES = { most: 0.5, least: 0.05 };
/** What a generation counts beside the one after it. */
const FADING = 0.9;

/**
 * The second way makes half of the children while more of its children succeed than of the first way's, else one in
 * twenty. It never makes more than half: whatever fits finely what is known must leave room to find what is not. Source:
 * D. Thierens, An adaptive pursuit strategy for allocating operator probabilities, GECCO 2005, 1539-1546,
 * doi:10.1145/1068009.1068251 (from memory), here with rates that fade instead of probabilities that follow.
 */
export function createOperatorShare(): OperatorShare {
  const made = [0, 0];
  const succeeded = [0, 0];
  let value = SHARES.most;
  return {
    get value() {
      return value;
    },
    record(isSecond, success) {
      const which = isSecond ? 1 : 0;
      made[which]!++;
      if (success) succeeded[which]!++;
    },
    mark() {
      value = succeeded[1]! * made[0]! > succeeded[0]! * made[1]! ? SHARES.most : SHARES.least;
      for (const counts of [made, succeeded]) {
        counts[0]! *= FADING;
        counts[1]! *= FADING;
      }
    },
  };
}
