export type Sense = 'maximise' | 'minimise';

/**
 * The columns turned so that less is better in each. Throws RangeError when the columns are not
 * one a sense and equally long, or when there is none.
 */
export function asCosts(columns: readonly Float64Array[], senses: readonly Sense[]): Float64Array[] {
  const count = columns[0]?.length;
  if (count === undefined || columns.length !== senses.length || columns.some((c) => c.length !== count)) {
    throw new RangeError('a front needs one column a sense, all of one length, and at least one');
  }
  return columns.map((column, objective) => {
    const sign = senses[objective] === 'maximise' ? -1 : 1;
    return column.map((value) => sign * value);
  });
}
