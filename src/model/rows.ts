/** Designs on their way to a worker: `values` holds one number per varied input, design after design. */
export interface DesignBatch {
  /** Row id of the first design; ids run on from it. */
  readonly first: number;
  readonly count: number;
  /** count x vary.length; a number's SI value or a choice's level. */
  readonly values: Float64Array;
}

/**
 * Evaluated rows on their way back. Columns are SI and stand one after the other: column c is
 * `subarray(c * count, (c + 1) * count)`. NaN is the empty cell; it never leaves these arrays.
 */
export interface RowBatch extends DesignBatch {
  /** Codes of STATUSES and REASONS. */
  readonly status: Uint8Array;
  readonly reason: Uint8Array;
  /** 1 where every limit is met. */
  readonly feasible: Uint8Array;
  /** Bit i is set where limit i is not met (limits beyond the 32nd share the last bit). */
  readonly unmet: Uint32Array;
  /**
   * How far each row is from meeting its limits: the sum over the limits of `limitExcess` (math/), so 0 where it is
   * feasible, and RESTING_EXCESS more where it rests; infinite where the design could not be evaluated. For searches; no table shows it.
   */
  readonly violation: Float64Array;
  /** As many columns as `quantityColumns` of the study's requested quantities. */
  readonly quantities: Float64Array;
  /** derive.length columns. */
  readonly derived: Float64Array;
  /** objectives.length columns. */
  readonly objectives: Float64Array;
  /** The same rows as the bytes of a part, where whoever evaluated them has made these, too. */
  readonly packed?: PackedRows;
}

export interface PackedRows {
  readonly bytes: Uint8Array;
  readonly checksum: string;
}

export function column(
  batch: { readonly count: number },
  columns: Float64Array,
  index: number,
): Float64Array {
  return columns.subarray(index * batch.count, (index + 1) * batch.count);
}

/**
 * Rows as tables take them: of any designs, each with its id and the verdict of the front. `onFront` is 1
 * where no feasible design dominates the row.
 */
export interface TableRows extends Omit<RowBatch, 'first' | 'violation' | 'packed'> {
  readonly designs: Float64Array;
  readonly onFront: Uint8Array;
}

/** Rows [from, to) of some. */
export interface Stretch<Rows> {
  readonly rows: Rows;
  readonly from: number;
  readonly to: number;
}

/** How many rows stretches have together. */
export function rowsIn(stretches: readonly Stretch<unknown>[]): number {
  return stretches.reduce((sum, { from, to }) => sum + to - from, 0);
}

/**
 * What resting adds to how far limits are broken: next to nothing, so that of two designs that meet all limits a search
 * prefers the one that floats.
 */
export const RESTING_EXCESS = 1e-6;
