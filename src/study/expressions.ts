import type { Problem } from '../errors.ts';
import { FUNCTIONS } from '../expression/check.ts';
import { compileDerived, compileLimit, compileObjective, inputsOf } from '../expression/compile.ts';
import { inItsCurrency } from '../expression/currency.ts';
import type { Flaw, Outcome } from '../expression/outcome.ts';
import { didYouMean } from '../expression/suggest.ts';
import { unitSymbol } from '../expression/units.ts';
import { INPUTS, inputByName } from '../model/inputs.ts';
import type { Derived, Limit, Objective, Program } from '../model/program.ts';
import { FRAME, QUANTITIES, quantityByName } from '../model/quantities.ts';
import { quote } from './clean.ts';
import type { ValuesOf } from './complete.ts';
import type { Path, Positions } from './positions.ts';
import type { DerivedShape, ObjectiveShape } from './schema.ts';
import { flawProblem } from './shape-problems.ts';

const MAX_DERIVED_NAME = 60;

/** Compiles the expressions of a study, gathering the problems of all of them. */
export interface Expressions {
  derive(written: Readonly<Record<string, DerivedShape>>): void;
  limits(written: readonly string[]): readonly Limit[];
  objectives(written: readonly ObjectiveShape[]): readonly Objective[];
  keep(names: readonly string[]): void;
  readonly derived: readonly Derived[];
  readonly problems: readonly Problem[];
}

/**
 * `statistics`: columns that the study's tolerances bring, known before its own.
 * `values`: null where the rig itself could not be read, so that missing inputs are not reported twice.
 */
export function createExpressions(
  positions: Positions,
  values: ValuesOf | null,
  statistics: readonly Derived[] = [],
  currency: string | null = null,
): Expressions {
  const problems: Problem[] = [];
  const derived: Derived[] = [...statistics];
  const broken = new Set<string>();
  let toCome: readonly string[] = [];

  const report = (path: Path, flaw: Flaw): void => {
    // A name whose own definition failed is not unknown: its definition has been reported.
    const name = flaw.code === 'unknown-name' ? /^`(\w+)`/.exec(flaw.found)?.[1] : undefined;
    if (name !== undefined && broken.has(name)) return;
    const early = name !== undefined && toCome.includes(name);
    const shown = early ? { ...flaw, wanted: `\`${name}\` defined before it is used` } : flaw;
    problems.push(flawProblem(shown, positions.value(path, flaw.at, flaw.length)));
  };
  const take = <T>(path: Path, outcome: Outcome<T>, programs: (value: T) => readonly Program[]): T | null => {
    if (!outcome.ok) {
      report(path, outcome.flaw);
      return null;
    }
    for (const slot of new Set(programs(outcome.value).flatMap(inputsOf))) {
      if (values?.(slot).every(Number.isNaN)) {
        const { name, path: input } = INPUTS[slot]!;
        const wanted = `a value for ${input} in the rig or in vary`;
        problems.push({
          code: 'absent-input',
          found: `\`${name}\`, which the study does not give`,
          wanted,
          ...positions.value(path),
        });
      }
    }
    return outcome.value;
  };

  return {
    derived,
    problems,
    derive(written) {
      toCome = Object.keys(written);
      for (const [name, definition] of Object.entries(written)) {
        const wanted = nameFlaw(name, derived);
        if (wanted !== null) {
          problems.push({
            code: 'derived-name',
            found: `the name ${quote(name)}`,
            wanted,
            ...positions.key(['derive', name]),
          });
          broken.add(name);
          continue;
        }
        const { is, unit = null } = typeof definition === 'string' ? { is: definition } : definition;
        const outcome = compileDerived(name, is, derived, unit);
        const inUnit =
          !outcome.ok && unit !== null && ['unknown-unit', 'wrong-dimension'].includes(outcome.flaw.code);
        const path =
          typeof definition === 'string' ? ['derive', name] : ['derive', name, inUnit ? 'unit' : 'is'];
        const one = take(path, outcome, (value) => [value.program]);
        if (one === null) broken.add(name);
        else derived.push(one);
      }
    },
    limits(written) {
      return written.flatMap((text, i) => {
        const one = take(
          ['limits', i],
          inItsCurrency(text, currency, (plain) => compileLimit(plain, derived)),
          ({ left, right }) => [left, right],
        );
        return one === null ? [] : [one];
      });
    },
    objectives(written) {
      return written.flatMap((objective, i) => {
        const { maximise, minimise } = objective;
        const text = maximise ?? minimise;
        if (text === undefined || (maximise !== undefined && minimise !== undefined)) {
          const found = text === undefined ? 'an objective without a sense' : 'an objective with two senses';
          const wanted = 'exactly one of maximise and minimise';
          problems.push({ code: 'sense', found, wanted, ...positions.value(['objectives', i]) });
          return [];
        }
        const sense = maximise === undefined ? 'minimise' : 'maximise';
        const outcome = inItsCurrency(text, currency, (plain) => compileObjective(plain, sense, derived));
        const one = take(['objectives', i, sense], outcome, ({ program }) => [program]);
        return one === null ? [] : [one];
      });
    },
    keep(names) {
      const known = [...QUANTITIES.map((quantity) => quantity.name), ...derived.map((one) => one.name)];
      names.forEach((name, i) => {
        if (!known.includes(name) && !broken.has(name)) {
          const wanted = `a quantity${didYouMean(name, known)}`;
          problems.push({
            code: 'unknown-name',
            found: `${quote(name)} is no quantity`,
            wanted,
            ...positions.value(['keep', i]),
          });
        } else if (names.indexOf(name) < i) {
          const found = `${quote(name)} a second time`;
          problems.push({ code: 'twice', found, wanted: 'each name once', ...positions.value(['keep', i]) });
        }
      });
    },
  };
}

/** What is wanted in place of a name that a derived quantity cannot have; null where it can. */
function nameFlaw(name: string, derived: readonly Derived[]): string | null {
  if (!/^[A-Za-z][A-Za-z0-9_]*$/.test(name) || name.length > MAX_DERIVED_NAME) {
    return `letters, digits and _, at most ${MAX_DERIVED_NAME}`;
  }
  const columns = [...QUANTITIES, ...derived].map((one) => one.column);
  const taken =
    quantityByName(name) !== undefined ||
    inputByName(name) !== undefined ||
    Object.hasOwn(FRAME, name) ||
    columns.includes(name) ||
    derived.some((one) => one.name === name) ||
    FUNCTIONS.includes(name);
  if (taken) return 'a name that is not taken';
  return unitSymbol(name) === null ? null : 'a name that is not a unit';
}
