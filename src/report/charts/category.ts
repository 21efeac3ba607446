/**
 * A name from a study as a category of a chart. Vega keeps categories as keys of plain objects, in which `constructor` and
 * `toString` are there already and `__proto__` never is: so each gets a character in front that no such key has. It has
 * no width, and `tidySvg` takes it out of what is drawn.
 */
export const MARK = '\ue000';

export function category(name: string): string {
  return MARK + name;
}
