import type { Spread } from './statistics.ts';

/** One measured row of the bench; less is better unless its unit is `x`. */
export interface Line {
  readonly what: string;
  readonly unit: string;
  readonly measured: Spread;
  readonly target: string;
}

/** Units that a slower machine stretches. */
const TIMES = ['us', 'ms', 's'];
/** A row counts as changed from this share on, and only where the two ranges do not overlap. */
const NOTICEABLE = 0.1;

/** A row whose work never changes, and the rows that a slower minute stretches as it does. */
export interface Yardstick {
  readonly what: string;
  measures(what: string): boolean;
}

/**
 * What changed since the bench before, a sentence a row. Times are first divided by how much longer their yardstick took this
 * time, the first that measures them, because the same machine is slower in one minute than in another.
 */
export function compareWithLast(
  lines: readonly Line[],
  last: readonly Line[],
  yardsticks: readonly Yardstick[],
): string[] {
  const before = byName(last);
  const paces = yardsticks.map(({ what }) => {
    const now = lines.find((line) => line.what === what);
    const then = last.find((line) => line.what === what);
    return now && then ? now.measured.median / then.measured.median : 1;
  });
  return [...byName(lines)].flatMap(([name, line]) => {
    const old = before.get(name);
    if (!old || old.unit !== line.unit || yardsticks.some(({ what }) => what === line.what)) return [];
    const by = yardsticks.findIndex((yardstick) => yardstick.measures(line.what));
    const scale = TIMES.includes(line.unit) ? (paces[by] ?? 1) : 1;
    const { median, least, most } = line.measured;
    const change = median / scale / old.measured.median - 1;
    const apart = least / scale > old.measured.most || most / scale < old.measured.least;
    if (!apart || !(Math.abs(change) >= NOTICEABLE)) return [];
    return [`${line.what}: ${describeChange(line.unit, change)}`];
  });
}

/** All lines, those that `part` measured again in place of the earlier ones. */
export function withPart(all: readonly Line[], part: readonly Line[]): readonly Line[] {
  return [...new Map([...byName(all), ...byName(part)]).values()];
}

/** Some rows are called alike, one under each of several others. */
function byName(lines: readonly Line[]): ReadonlyMap<string, Line> {
  const seen = new Map<string, number>();
  return new Map(
    lines.map((line) => {
      const nth = seen.get(line.what) ?? 0;
      seen.set(line.what, nth + 1);
      return [`${line.what} ${nth}`, line];
    }),
  );
}

function describeChange(unit: string, change: number): string {
  const percent = `${Math.round(100 * Math.abs(change))} %`;
  if (TIMES.includes(unit)) return `${change > 0 ? 'slower' : 'faster'} than last time by ${percent}`;
  return `${change > 0 ? 'more' : 'less'} than last time by ${percent}`;
}
