import type { Problem } from '../errors.ts';
import { INPUTS, inputByPath } from '../model/inputs.ts';
import type { FittedInputs, FittedValue, RigTemplate, Varied } from '../model/study.ts';
import { cleanLine, quote } from './clean.ts';
import { readInput } from './input-value.ts';
import { NUMBER_PATHS } from './paths.ts';
import type { Path, Positions } from './positions.ts';
import type { CalibratedShape, FittedShape } from './schema.ts';
import { flawProblem } from './shape-problems.ts';
import { readTolerance } from './tolerance-size.ts';

interface Fitted {
  readonly template: RigTemplate;
  /** Null where the study names none. */
  readonly fitted: FittedInputs | null;
  readonly problems: readonly Problem[];
}

/** The rig with the inputs that `calibrated` gives in place of its own. */
export function fillFitted(
  template: RigTemplate,
  calibrated: CalibratedShape | undefined,
  positions: Positions,
): Fitted {
  if (calibrated === undefined) return { template, fitted: null, problems: [] };
  if (typeof calibrated === 'string') {
    const problem = {
      code: 'not-included',
      found: `the file ${quote(calibrated)}, which was not read`,
      wanted: 'the fitted inputs themselves: {path: value}',
      ...positions.value(['calibrated']),
    };
    return { template, fitted: null, problems: [problem] };
  }
  const { values, problems } = readFitted(calibrated, positions, ['calibrated']);
  const slots = template.slots.slice();
  for (const { slot, value } of values) slots[slot] = value;
  const nameOf = (text: unknown) => (typeof text === 'string' ? cleanLine(text) : null);
  return {
    template: { ...template, slots, texts: withFittedMetals(template.texts, values) },
    fitted: {
      file: nameOf(calibrated.file),
      measured: nameOf(calibrated.measured),
      inputs: values.map((each) => ({ ...each, drawn: template.slots[each.slot]! })),
    },
    problems,
  };
}

/** The fitted values of a mapping that stands at `at`, or of a whole file. */
export function readFitted(
  { file, measured, ...shape }: FittedShape,
  positions: Positions,
  at: Path,
): { readonly values: readonly FittedValue[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const values: FittedValue[] = [];
  for (const [path, entry] of Object.entries(shape)) {
    if (entry === undefined) continue;
    const spec = inputByPath(NUMBER_PATHS.get(path)!)!;
    const place = [...at, path];
    const isMapping = typeof entry === 'object';
    const value = readInput(spec, isMapping ? entry.value : entry);
    if (!value.ok) {
      const { flaw } = value;
      const span = positions.value(isMapping ? [...place, 'value'] : place, flaw.at, flaw.length);
      problems.push(flawProblem(flaw, span));
      continue;
    }
    const written = isMapping ? entry.error : undefined;
    const error = written === undefined ? null : readTolerance(spec, written, ERROR_WANTED);
    if (error && !error.ok) {
      const { flaw } = error;
      problems.push(flawProblem(flaw, positions.value([...place, 'error'], flaw.at, flaw.length)));
    }
    if (values.some(({ slot }) => slot === spec.slot)) {
      problems.push({
        code: 'same-input',
        found: `${quote(path)}, which another path gives, too`,
        wanted: 'each input once',
        ...positions.key(place),
      });
    }
    const size = error?.ok ? error.value : { size: Number.NaN, relative: false };
    values.push({
      path,
      slot: spec.slot,
      value: value.value,
      error: size.relative ? size.size * Math.abs(value.value) : size.size,
    });
  }
  return { values, problems };
}

const ERROR_WANTED = 'a standard error above 0, such as 0.1 mm or 2 %';

/** A metal of the catalogue with a number of its own is not that metal any more, and is named so. */
function withFittedMetals(texts: RigTemplate['texts'], values: readonly FittedValue[]): RigTemplate['texts'] {
  const named: Record<string, string> = { ...texts };
  for (const [metal, text] of Object.entries(texts)) {
    if (!metal.endsWith('.metal')) continue;
    const numbers = values.flatMap(({ slot }) => {
      const { path } = INPUTS[slot]!;
      return path.startsWith(`${metal}.`) ? [path.slice(metal.length + 1).replaceAll('_', ' ')] : [];
    });
    if (numbers.length > 0) named[metal] = `${text}, ${numbers.join(' and ')} fitted`;
  }
  return named;
}

/** What was fitted is known: a study that varies it is about something else. */
export function fittedAndVaried(
  fitted: FittedInputs | null,
  varied: readonly Varied[],
  positions: Positions,
): Problem[] {
  return (fitted?.inputs ?? []).flatMap(({ path, slot }) => {
    const by = varied.find((one) =>
      one.kind === 'number'
        ? one.slot === slot
        : one.levels.some(({ settings }) => settings.some(([of]) => of === slot)),
    );
    if (!by) return [];
    return [
      {
        code: 'fitted-and-varied',
        found: `${quote(path)}, which ${quote(by.path)} in vary changes`,
        wanted: 'either its fitted value or other ones',
        ...positions.key(['calibrated', path]),
      },
    ];
  });
}
