export type Sense = 'maximise' | 'minimise';

/**
 * The columns turned so that less is better in each; one that is so already comes back itself, not to be written to.
 * Throws RangeError when the columns are not one a sense and equally long, or when there is none.
 */
export function asCosts(columns: readonly Float64Array[], senses: readonly Sense[]): readonly Float64Array[] {
  requireColumns(columns, senses);
  return columns.map((column, objective) => (senses[objective] === 'maximise' ? negated(column) : column));
}

function negated(column: Float64Array): Float64Array {
  const costs = new Float64Array(column.length);
  for (let row = 0; row < costs.length; row++) costs[row] = -column[row]!;
  return costs;
}

/** Throws RangeError unless there is one column a sense, at least one, and all are of one length. */
export function requireColumns(columns: readonly Float64Array[], senses: readonly Sense[]): void {
  const count = columns[0]?.length;
  if (count === undefined || columns.length !== senses.length || columns.some((c) => c.length !== count)) {
    throw new RangeError('a front needs one column a sense, all of one length, and at least one');
  }
}
