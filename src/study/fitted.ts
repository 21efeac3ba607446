import type { Problem } from '../errors.ts';
import { inputByPath } from '../model/inputs.ts';
import type { RigTemplate, Varied } from '../model/study.ts';
import { quote } from './clean.ts';
import { NUMBER_PATHS } from './paths.ts';
import type { Positions } from './positions.ts';
import type { CalibratedShape } from './schema.ts';

interface Fitted {
  readonly template: RigTemplate;
  /** Slot of each fitted input, by the path that the study gives it. */
  readonly paths: ReadonlyMap<string, number>;
  readonly problems: readonly Problem[];
}

/** The rig with the inputs that `calibrated` gives in place of its own. */
export function fillFitted(
  template: RigTemplate,
  calibrated: CalibratedShape | undefined,
  positions: Positions,
): Fitted {
  const paths = new Map<string, number>();
  if (calibrated === undefined) return { template, paths, problems: [] };
  if (typeof calibrated === 'string') {
    const problem = {
      code: 'not-included',
      found: `the file ${quote(calibrated)}, which was not read`,
      wanted: 'the fitted inputs themselves: {path: value}',
      ...positions.value(['calibrated']),
    };
    return { template, paths, problems: [problem] };
  }
  const slots = template.slots.slice();
  const problems: Problem[] = [];
  for (const [path, value] of Object.entries(calibrated)) {
    if (value === undefined) continue;
    const { slot } = inputByPath(NUMBER_PATHS.get(path)!)!;
    if ([...paths.values()].includes(slot)) {
      problems.push({
        code: 'same-input',
        found: `${quote(path)}, which another path gives, too`,
        wanted: 'each input once',
        ...positions.key(['calibrated', path]),
      });
    }
    paths.set(path, slot);
    slots[slot] = value;
  }
  return { template: { ...template, slots }, paths, problems };
}

/** What was fitted is known: a study that varies it asks for something else. */
export function fittedAndVaried(
  paths: ReadonlyMap<string, number>,
  varied: readonly Varied[],
  positions: Positions,
): Problem[] {
  return [...paths].flatMap(([path, slot]) => {
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
