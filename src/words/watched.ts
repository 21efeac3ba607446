import { FLOATS, SLOT } from '../model/inputs.ts';
import type { Comparison, Program } from '../model/program.ts';
import { QUANTITIES, quantityByName } from '../model/quantities.ts';
import type { Study } from '../model/study.ts';
import type { Unit } from '../model/units.ts';
import { objectiveLabel } from './objective-words.ts';

/** A number of a rig whose spread is worth showing. */
export interface Watched {
  /** As people call it: `lift-off current`, `height / current`. */
  readonly label: string;
  /** As tables call its column; an objective that is computed goes by its text. */
  readonly column: string;
  readonly unit: Unit;
  readonly program: Program;
  /** Limits of the study that hold it, and nothing else, against a fixed bound. SI. */
  readonly bounds: readonly { readonly comparison: Comparison; readonly value: number }[];
}

/** What a builder needs first: of a rig that floats, and of one that is clamped. */
const FLOATING = ['liftoff_current', 'height', 'voltage', 'coil_temperature'];
const CLAMPED = ['plate_loss', 'voltage', 'coil_temperature', 'load_heating_time'];
/** What its builder may change about it, where inputs are compared by what they do. */
const BUILDING = ['height', 'liftoff_current', 'coil_mass', 'voltage', 'coil_temperature'];
/** More than these nobody reads. */
const MOST = 9;

/**
 * The main quantities of a study: what a builder needs first, its objectives, and what its limits name. A statistic stands
 * for the quantity that it is of.
 */
export function watchedOf(study: Watching): Watched[] {
  return watchedBeside(study, isClamped(study) ? CLAMPED : FLOATING);
}

/** Likewise, of a rig that is still to be changed: its mass is among them, and nothing that a limit implies. */
export function changeableOf(study: Watching): Watched[] {
  const limits = study.limits.filter(({ implied }) => !implied);
  const { rig, derive, objectives } = study;
  return watchedBeside(
    { rig, derive, limits, objectives },
    isClamped(study) ? [...CLAMPED, 'coil_mass'] : BUILDING,
  );
}

type Watching = Pick<Study, 'rig' | 'derive' | 'limits' | 'objectives'>;

function isClamped({ rig }: Watching): boolean {
  return rig.slots[SLOT.floats] === FLOATS.nothing;
}

function watchedBeside(study: Watching, first: readonly string[]): Watched[] {
  const { limits, objectives } = study;
  const found = new Map<string, Watched>();
  const add = (watched: Watched) => {
    const key = JSON.stringify(watched.program);
    if (!found.has(key) && found.size < MOST) found.set(key, watched);
  };
  const addQuantity = (index: number) => {
    const { label, column, unit, words } = QUANTITIES[index]!;
    const program: Program = [{ op: 'quantity', index }];
    if (words.length === 0) add({ label, column, unit, program, bounds: boundsOf(study, program) });
  };
  for (const name of first) addQuantity(quantityByName(name)!.index);
  for (const objective of objectives) {
    const { program, text, unit } = objective;
    if (isPerRig(study, program)) {
      const [only, ...more] = program;
      if (only?.op === 'quantity' && more.length === 0) addQuantity(only.index);
      else add({ label: objectiveLabel(objective), column: text, unit, program, bounds: [] });
    } else for (const index of quantitiesIn(study, program)) addQuantity(index);
  }
  for (const { left, right } of limits) {
    for (const index of quantitiesIn(study, [...left, ...right])) addQuantity(index);
  }
  return [...found.values()];
}

type Deriving = Pick<Study, 'derive'>;

/** Whether every rig has it by itself: no statistic in it, directly or through a derived quantity. */
function isPerRig(study: Deriving, program: Program): boolean {
  return program.every((each) => {
    if (each.op !== 'derived') return true;
    const { statistic, program: own } = study.derive[each.index]!;
    return statistic === undefined && isPerRig(study, own);
  });
}

/** Quantities that a program names, also through statistics and derived quantities. */
function quantitiesIn(study: Deriving, program: Program): number[] {
  return program.flatMap((each) => {
    if (each.op === 'quantity') return [each.index];
    if (each.op !== 'derived') return [];
    const { statistic, program: own } = study.derive[each.index]!;
    return statistic?.kind === 'quantile' ? [statistic.quantity] : quantitiesIn(study, own);
  });
}

const TURNED: Readonly<Record<Comparison, Comparison>> = { '<': '>', '<=': '>=', '>': '<', '>=': '<=' };

function boundsOf({ limits }: Pick<Study, 'limits'>, program: Program): Watched['bounds'] {
  const wanted = JSON.stringify(program);
  const fixed = ([only, ...more]: Program) =>
    only?.op === 'constant' && more.length === 0 ? [only.value] : [];
  return limits.flatMap(({ left, right, comparison }) => [
    ...(JSON.stringify(left) === wanted ? fixed(right).map((value) => ({ comparison, value })) : []),
    ...(JSON.stringify(right) === wanted
      ? fixed(left).map((value) => ({ comparison: TURNED[comparison], value }))
      : []),
  ]);
}
