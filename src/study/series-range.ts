import { flawed } from '../expression/outcome.ts';
import { didYouMean } from '../expression/suggest.ts';
import type { InputSpec } from '../model/inputs.ts';
import { SERIES, seriesByName } from '../model/series/series.ts';
import { quote } from './clean.ts';
import { readInput } from './input-value.ts';
import type { Levels } from './levels.ts';
import { shortPath } from './paths.ts';
import type { RangeShape } from './schema.ts';

/** An end of a series takes the size itself, however it was computed. */
const ROUNDING = 1e-9;

/** The sizes of a series from one end to the other, SI, ascending: of a gauge either end may be the thicker wire. */
export function seriesLevels(spec: InputSpec, range: RangeShape): Levels {
  const name = range.series!;
  const suitable = SERIES.filter((series) => series.suits(spec.path));
  const wanted =
    suitable.length === 0
      ? `a list or a range: there is no series of sizes for ${shortPath(spec.path)}`
      : `${suitable.map((series) => `${series.name} (${series.meaning})`).join(', ')}`;
  const series = seriesByName(name);
  if (!series || !suitable.includes(series)) {
    const what = series ? `series of ${series.meaning}` : 'unknown series';
    const hint = didYouMean(
      name,
      suitable.map((one) => one.name),
    );
    const flaw = flawed('unknown-series', `the ${what} ${quote(name)}`, `${wanted}${hint}`).flaw;
    return { ok: false, flaw, part: 'series' };
  }
  for (const part of ['step', 'count', 'spacing'] as const) {
    if (range[part] === undefined) continue;
    const flaw = flawed('series-and-step', `a ${part} beside a series`, 'from and to alone').flaw;
    return { ok: false, flaw, part };
  }
  const ends: number[] = [];
  for (const [part, open] of [
    ['from', 0],
    ['to', Number.MAX_VALUE],
  ] as const) {
    const written = range[part];
    const end = written === undefined ? ({ ok: true, value: open } as const) : readInput(spec, written);
    if (!end.ok) return { ok: false, flaw: end.flaw, part };
    ends.push(end.value);
  }
  const [low, high] = [Math.min(...ends) * (1 - ROUNDING), Math.max(...ends) * (1 + ROUNDING)];
  const levels = series.values.filter((value) => value >= low && value <= high && readInput(spec, value).ok);
  if (levels.length > 0) return { ok: true, levels };
  const flaw = flawed(
    'empty-series',
    `no size of the series ${series.name} between these ends`,
    'wider ends',
  ).flaw;
  return { ok: false, flaw, part: range.from === undefined ? 'to' : 'from' };
}
