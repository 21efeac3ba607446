import type { Problem } from '../errors.ts';
import {
  FLOATS,
  FUSE_KINDS,
  FUSE_SIDES,
  INPUTS,
  LAYER_THICKNESS,
  MAX_OVERLOADS,
  METAL_SLOTS,
  SLOT,
  WINDING,
} from '../model/inputs.ts';
import type { RigTemplate, Varied } from '../model/study.ts';
import { ENAMELLED, enamelThickness } from '../model/wires.ts';
import { isDrive, shortPath } from './paths.ts';
import type { Path, Positions, Span } from './positions.ts';
import { layerSlot, windingSlot } from './rig.ts';

/** Largest rated current of a circuit breaker, A (IEC 60898-1, scope; seen: a secondary quotation). */
const LARGEST_BREAKER = 125;

/** Every value that a slot takes over the designs of a study; NaN where a design leaves it out. */
export type ValuesOf = (slot: number) => Float64Array;

export function valuesOf(template: RigTemplate, varied: readonly Varied[]): ValuesOf {
  const values = new Map<number, Float64Array>();
  for (const one of varied) {
    if (one.kind === 'number') values.set(one.slot, one.levels);
    else {
      for (const slot of new Set(one.levels.flatMap((level) => level.settings.map(([of]) => of)))) {
        values.set(
          slot,
          Float64Array.from(
            one.levels,
            (level) => level.settings.find(([of]) => of === slot)?.[1] ?? Number.NaN,
          ),
        );
      }
    }
  }
  return (slot) => values.get(slot) ?? template.slots.subarray(slot, slot + 1);
}

/** Slots and texts that `vary` takes over are left out of the template. */
export function withoutVaried(template: RigTemplate, varied: readonly Varied[]): RigTemplate {
  const slots = Float64Array.from(template.slots);
  const texts = { ...template.texts };
  for (const one of varied) {
    const taken =
      one.kind === 'number'
        ? [one.slot]
        : one.levels.flatMap((level) => level.settings.map(([slot]) => slot));
    for (const slot of taken) slots[slot] = Number.NaN;
    delete texts[one.path];
    // A thickness takes the place of the grade that the rig gives.
    if (one.kind === 'number' && one.slot === SLOT.insulationThickness) {
      slots[SLOT.insulationGrade] = Number.NaN;
      delete texts['coil.insulation'];
    }
  }
  return { ...template, slots, texts };
}

/** The nearest part of the file that should hold a path and does exist. */
function home(path: string): Path {
  const segments = isDrive(path) ? ['drive'] : ['rig', ...path.split('.').slice(0, -1)];
  return segments.map((segment) => (/^\d+$/.test(segment) ? Number(segment) : segment));
}

/**
 * Names the parts that a study needs and has neither in the rig nor in `vary`. `isGiven`: what the file gives in a form
 * that cannot be read, which is reported elsewhere.
 */
export function missingParts(
  { plateLayers, windings }: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  values: ValuesOf,
  positions: Positions,
  isGiven: (path: string) => boolean = () => false,
): Problem[] {
  const problems: Problem[] = [];
  const has = (slot: number): boolean => values(slot).every((value) => !Number.isNaN(value));
  const need = (path: string, wanted: string): void => {
    if (isGiven(path)) return;
    const short = shortPath(path);
    problems.push({
      code: 'missing',
      found: `no \`${short}\``,
      wanted: `\`${short}\`${short.startsWith('drive') ? '' : ' in the rig'}, or in vary: ${wanted}`,
      ...positions.key(plateLayers === 1 ? home(short) : home(path)),
    });
  };
  const number = (slot: number, wanted: string): void => {
    if (!has(slot)) need(INPUTS[slot]!.path, wanted);
  };
  const metal = (path: string, slot: number): void => {
    const needed = [
      METAL_SLOTS.resistivity,
      METAL_SLOTS.temperatureCoefficient,
      METAL_SLOTS.density,
      METAL_SLOTS.specificHeat,
    ];
    const absent = needed.filter((offset) => !has(slot + offset));
    if (absent.length === needed.length) need(path, 'a metal such as aluminium');
    else for (const offset of absent) number(slot + offset, 'its value at 20 degC');
  };
  number(SLOT.floats, 'coil, plate or nothing');
  const insulated = (grade: number, thickness: number): boolean => {
    const grades = values(grade);
    const thicknesses = values(thickness);
    return (
      has(thickness) ||
      grades.some((one, i) => !Number.isNaN(one) || !Number.isNaN(thicknesses[i] ?? Number.NaN))
    );
  };
  const section = (outer: number, height: number, layers: number, shared: boolean): void => {
    const [hasOuter, hasHeight] = [has(outer), has(height)];
    if (hasOuter !== hasHeight) number(hasOuter ? height : outer, 'a section needs outer_radius and height');
    else if (!hasOuter && !shared) number(layers, 'a whole number; or a section');
  };
  // what a winding leaves out of metal, wire, insulation and layers it takes from the coil
  const each = Array.from({ length: windings }, (_, i) => windingSlot(i));
  const single = windings === 0;
  if (single || !each.every(has)) metal('coil.metal', SLOT.coilMetal);
  if (single || !each.every((slot) => has(slot + WINDING.wire))) {
    number(SLOT.wire, 'a bare diameter such as 2 mm');
  }
  const ownInsulation = each.every((slot) =>
    insulated(slot + WINDING.insulationGrade, slot + WINDING.insulationThickness),
  );
  if ((single || !ownInsulation) && !insulated(SLOT.insulationGrade, SLOT.insulationThickness)) {
    need('coil.insulation', 'grade 2, or a thickness');
  }
  if (single) {
    number(SLOT.turns, 'a whole number');
    number(SLOT.innerRadius, 'a length such as 50 mm');
    section(SLOT.sectionOuterRadius, SLOT.sectionHeight, SLOT.layers, false);
  }
  for (const slot of each) {
    number(slot + WINDING.turns, 'a whole number');
    number(slot + WINDING.innerRadius, 'a length such as 50 mm');
    section(
      slot + WINDING.sectionOuterRadius,
      slot + WINDING.sectionHeight,
      slot + WINDING.layers,
      has(SLOT.layers),
    );
  }
  for (let i = 0; i < plateLayers; i++) {
    metal(`plate.layers.${i}.metal`, layerSlot(i));
    number(layerSlot(i) + LAYER_THICKNESS, 'a length such as 8 mm');
  }
  number(SLOT.standoff, 'a length such as 2 mm');
  number(SLOT.frequency, 'a frequency such as 50 Hz');
  const sized = has(SLOT.plateSquare) || (has(SLOT.plateSides) && has(SLOT.plateSides + 1));
  if (values(SLOT.floats).includes(FLOATS.plate) && !sized) {
    number(SLOT.plateRadius, 'a floating plate has a weight');
  }
  if (!sized && values(SLOT.plateInnerRadius).some((value) => !Number.isNaN(value))) {
    number(SLOT.plateRadius, 'a plate with a hole has a radius');
  }
  if (has(SLOT.plateSides) !== has(SLOT.plateSides + 1)) {
    number(has(SLOT.plateSides) ? SLOT.plateSides + 1 : SLOT.plateSides, 'a rectangular plate has two sides');
  }
  const outlines = [SLOT.plateRadius, SLOT.plateSquare, SLOT.plateSides].filter(has);
  if (outlines.length > 1) {
    const [first, second] = outlines.map((slot) => INPUTS[slot]!.path.replace('.0', ''));
    problems.push({
      code: 'plate-twice',
      found: `\`${first}\` beside \`${second}\``,
      wanted: 'one of radius, square and sides',
      ...positions.key(['rig', ...second!.split('.')]),
    });
  }
  const breaker = values(SLOT.fuseKind).some((kind) => kind >= FUSE_KINDS.B);
  const ratings = values(SLOT.fuseRating).filter((rating) => rating > LARGEST_BREAKER);
  if (breaker && ratings.length > 0) {
    problems.push({
      code: 'breaker-rating',
      found: `a circuit breaker of ${ratings[0]} A`,
      wanted: `a rating of IEC 60898-1, up to ${LARGEST_BREAKER} A`,
      ...positions.key(['rig', 'supply', 'fuse']),
    });
  }
  const load = [SLOT.loadWater, SLOT.loadFrom, SLOT.loadTo];
  if (load.some(has)) {
    for (const slot of load) number(slot, 'a load needs water, from and to');
    if (!sized) number(SLOT.plateRadius, 'a load stands in a vessel as wide as the plate');
  }
  for (let line = 0; line < MAX_OVERLOADS; line++) {
    const current = SLOT.transformerOverloads + 2 * line;
    const time = current + 1;
    if (has(current) !== has(time)) {
      number(has(current) ? time : current, 'a line of an overload table has current and time');
    }
    if (has(current)) number(SLOT.transformerCurrent, 'the rated current that an overload exceeds');
  }
  if (has(SLOT.dutyOn) !== has(SLOT.dutyOff)) {
    number(has(SLOT.dutyOn) ? SLOT.dutyOff : SLOT.dutyOn, 'a duty cycle has on and off, such as 5 min');
  }
  return problems;
}

/** A study has one drive: a current, a voltage, or the supply limit, which needs a limit to end at. */
export function driveProblems(atLimit: boolean, values: ValuesOf, positions: Positions): Problem[] {
  const has = (slot: number): boolean => values(slot).every((value) => !Number.isNaN(value));
  const drives = [
    ...(has(SLOT.driveCurrent) ? ['drive.current'] : []),
    ...(has(SLOT.driveVoltage) ? ['drive.voltage'] : []),
    ...(atLimit ? ['drive: supply limit'] : []),
  ];
  const at = positions.key(['drive']);
  if (drives.length === 0) {
    const wanted = '`drive.current` or `drive.voltage`, here or in vary, or drive: supply limit';
    return [{ code: 'missing', found: 'no `drive`', wanted, ...at }];
  }
  if (drives.length > 1) {
    return [{ code: 'drive-twice', found: `${drives.join(' beside ')}`, wanted: 'one of them', ...at }];
  }
  if (!atLimit) return [];
  const onLine = values(SLOT.fuseSide).includes(FUSE_SIDES.line);
  if (has(SLOT.fuseRating) && onLine && !has(SLOT.lineVoltage)) {
    const wanted = '`supply.line_voltage`: what current passes a fuse on the line side depends on it';
    return [
      { code: 'missing', found: 'no `supply.line_voltage`', wanted, ...positions.key(['rig', 'supply']) },
    ];
  }
  if ([SLOT.maxVoltage, SLOT.maxCurrent, SLOT.fuseRating].some(has)) return [];
  const wanted = 'max_voltage, max_current or fuse in the supply';
  return [{ code: 'no-limit', found: 'a drive to the supply limit and no limit', wanted, ...at }];
}

/** A wire for which the standard has no enamel of the requested grade, in every design of the study. */
export function missingEnamel(values: ValuesOf, span: Span): Problem[] {
  const grades = values(SLOT.insulationGrade).filter((grade) => !Number.isNaN(grade));
  const wires = values(SLOT.wire).filter((wire) => !Number.isNaN(wire));
  if (grades.length === 0 || grades.length < values(SLOT.insulationGrade).length || wires.length === 0)
    return [];
  if (wires.some((wire) => grades.some((grade) => !Number.isNaN(enamelThickness(wire, grade))))) return [];
  const [thin, thick] = [ENAMELLED.thinnest, ENAMELLED.thickest].map((d) => Number((d * 1e3).toPrecision(6)));
  return [
    {
      code: 'no-enamel',
      found: `a grade of enamel on wire outside ${thin} to ${thick} mm, which IEC 60317-0-1 does not cover`,
      wanted: 'the thickness on one side, such as 0.1 mm',
      ...span,
    },
  ];
}
