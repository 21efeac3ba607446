import type { Problem } from '../errors.ts';
import { inputByPath } from '../model/inputs.ts';
import type { Derived } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { Tolerance } from '../model/study.ts';
import { UNITS } from '../model/units.ts';
import { quote } from './clean.ts';
import type { ValuesOf } from './complete.ts';
import { NUMBER_PATHS } from './paths.ts';
import type { Positions } from './positions.ts';
import type { ToleranceShape } from './schema.ts';
import { flawProblem } from './shape-problems.ts';
import { readTolerance } from './tolerance-size.ts';

/** Tolerances of a study; each input is one that the study gives. `values`: null where that is not known. */
export function readTolerances(
  shape: Readonly<Record<string, ToleranceShape | undefined>>,
  values: ValuesOf | null,
  positions: Positions,
): { readonly tolerance: readonly Tolerance[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const tolerance: Tolerance[] = [];
  for (const [path, entry] of Object.entries(shape)) {
    if (entry === undefined) continue;
    const spec = inputByPath(NUMBER_PATHS.get(path)!)!;
    const { slot, integer, minimum, maximum, above } = spec;
    const { size, spread: distribution = 'normal' } = typeof entry === 'object' ? entry : { size: entry };
    const read = readTolerance(spec, size);
    if (!read.ok) {
      const place = typeof entry === 'object' ? ['tolerance', path, 'size'] : ['tolerance', path];
      problems.push(flawProblem(read.flaw, positions.value(place, read.flaw.at, read.flaw.length)));
      continue;
    }
    const refuse = (code: string, found: string, wanted: string) =>
      problems.push({ code, found, wanted, ...positions.key(['tolerance', path]) });
    if (values?.(slot).some((value) => !Number.isFinite(value))) {
      refuse('absent-input', `${quote(path)}, which the study does not give`, 'an input that it gives');
    }
    if (tolerance.some((other) => other.slot === slot)) {
      refuse('same-input', `${quote(path)}, which another path gives, too`, 'each input once');
    }
    // a bound that is no value itself is 0 wherever there is one
    const lowest = above ? TINY : minimum;
    tolerance.push({ path, slot, integer, ...read.value, distribution, minimum: lowest, maximum });
  }
  return { tolerance, problems };
}

const TINY = 1e-30;

const SHARES = [
  [0.05, 'p05'],
  [0.95, 'p95'],
] as const;

/**
 * The columns that a study with tolerances has besides its own: 5 and 95 % quantiles of every quantity that these
 * texts name, and the probabilities that a rig lifts and that it meets all limits which name no statistic.
 */
export function statisticsOf(texts: readonly string[]): Derived[] {
  const named = new Set(texts.flatMap((text) => text.match(/[A-Za-z]\w*/g) ?? []));
  const quantiles = QUANTITIES.filter(({ name, words }) => named.has(name) && words.length === 0).flatMap(
    ({ name, column, label, unit, index }) =>
      SHARES.map(
        ([fraction, ending]): Derived => ({
          name: `${name}_${ending}`,
          column: `${column}_${ending}`,
          text: `${label} below which ${100 * fraction} % of the rigs within tolerance stay`,
          program: [],
          unit,
          statistic: { kind: 'quantile', fraction, quantity: index },
        }),
      ),
  );
  const probability = (of: 'limits' | 'lifts', text: string): Derived => {
    const name = `probability_${of}`;
    return { name, column: name, text, program: [], unit: UNITS.one, statistic: { kind: 'probability', of } };
  };
  return [
    ...quantiles,
    probability('lifts', 'share of the rigs within tolerance that lift'),
    probability('limits', 'share of the rigs within tolerance that meet all limits which name no statistic'),
  ];
}
