/**
 * The place of each of an input's levels among them, -1 for a value that is none. Designs that follow one another have the same
 * level or the next one, which is looked at first; else the levels are halved again and again. Levels in ascending order,
 * as a range has them, take no memory for it: a map of a million takes 45 MB.
 */
export function createLevelPlaces(levels: Float64Array): (value: number) => number {
  const places = isAscending(levels) ? null : Uint32Array.from(levels.keys());
  places?.sort((a, b) => levels[a]! - levels[b]!);
  const ascending = places ? Float64Array.from(places, (place) => levels[place]!) : levels;
  const { length } = ascending;
  let at = 0;
  return (value) => {
    if (ascending[at] !== value && ascending[++at] !== value) {
      at = lowerBound(ascending, value);
      if (at === length || ascending[at] !== value) {
        at = 0;
        return -1;
      }
    }
    return places ? places[at]! : at;
  };
}

export function isAscending(levels: Float64Array): boolean {
  for (let i = 1; i < levels.length; i++) if (levels[i]! <= levels[i - 1]!) return false;
  return true;
}

/** Of ascending values the first that is not below `value`. */
function lowerBound(ascending: Float64Array, value: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ascending[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
