import { ENAMEL_INCREASE } from '../model/enamel-table.ts';
import {
  BEYOND_SUPPLY,
  EDGES,
  FLOATS,
  FUSE_KINDS,
  FUSE_SIDES,
  INPUTS,
  type InputSpec,
  LOAD_COVERS,
  METAL_KEYS,
  SLOT,
  WINDING_KINDS,
} from '../model/inputs.ts';
import { AWG_RANGE, awgDiameter, enamelThickness } from '../model/wires.ts';
import { shortText } from '../text/clean-text.ts';
import type { LiveStudy } from './live-data.ts';
import {
  CATALOGUE,
  isSameMetal,
  METAL_NUMBERS,
  metalAt,
  type NamedMetal,
  type RigState,
  type Settings,
  slotOfPath,
} from './rig-state.ts';
import { type SliderRange, sliderRange } from './sensible-range.ts';

/** Every input of a rig as something to set. Past 300 lines: one list, in the order in which a rig is described. */
export type Control = NumberControl | ChoiceControl;

export interface NumberControl {
  readonly kind: 'number';
  /** Unique on the page. */
  readonly id: string;
  readonly group: string;
  readonly label: string;
  readonly input: InputSpec;
  readonly range: SliderRange;
  /** May be left out. */
  readonly optional: boolean;
  /** Of a metal by its own numbers: folded away. */
  readonly isDetail: boolean;
}

export interface ChoiceControl {
  readonly kind: 'choice';
  readonly id: string;
  readonly group: string;
  readonly label: string;
  /** The text of the state that it sets; null where it has none. */
  readonly path: string | null;
  readonly options: readonly Option[];
  /** Index of the present one; -1: none of them. */
  readonly chosen: number;
  /** What stands there when none of them is chosen. */
  readonly other: string;
}

export interface Option {
  readonly label: string;
  readonly settings: Settings;
}

/** Inputs that may be given or left out by themselves; others are shown where the study gives them. */
const STANDALONE: ReadonlySet<string> = new Set([
  'coil.thermal_class',
  'coil.at_temperature',
  'plate.at_temperature',
  'plate.radius',
  'standoff.breakdown',
  'guides.play',
  'supply.line_voltage',
  'supply.max_voltage',
  'supply.max_current',
  'supply.fuse.rating',
  'supply.series_capacitance',
  'surroundings.visitor_distance',
  'surroundings.operator_distance',
  'surroundings.headroom',
  'surroundings.sideways_shift',
]);

const CODED: ReadonlySet<string> = new Set([
  'floats',
  'plate.edge',
  'supply.fuse.kind',
  'supply.fuse.side',
  'supply.isolated',
  'supply.beyond',
  'drive.current',
  'drive.voltage',
  'coil.winding',
  'plate.load.cover',
]);

const METAL_KEY_WORDS: ReadonlySet<string> = new Set(Object.values(METAL_KEYS));

export function controlsOf(study: LiveStudy, state: RigState): Control[] {
  const { slots } = state;
  const controls: Control[] = [coded('floats', 'what floats', 'Rig', FLOATS, state)];
  const metalPaths = new Set<string>();
  for (const input of INPUTS) {
    const { path, slot } = input;
    const parts = path.split('.');
    const key = parts.at(-1)!;
    const isGiven = !Number.isNaN(slots[slot]!);
    // what a stock file states is no property of the rig
    if (CODED.has(path) || path.startsWith('stock.')) continue;
    if (parts.at(-2) === 'metal' && METAL_KEY_WORDS.has(key)) {
      const metalPath = parts.slice(0, -1).join('.');
      const first = slotOfPath(`${metalPath}.resistivity`);
      if (Number.isNaN(slots[first]!)) continue;
      if (!metalPaths.has(metalPath)) {
        metalPaths.add(metalPath);
        controls.push(metalControl(study, state, metalPath));
      }
      controls.push(numberControl(study, state, input, true));
      continue;
    }
    if (key === 'grade') {
      const thickness = slot + 1;
      if (isGiven || !Number.isNaN(slots[thickness]!)) controls.push(gradeControl(state, path, slot));
      continue;
    }
    if (key === 'sense') {
      if (isGiven) controls.push(coded(path, 'wound', groupOf(path), { with: 1, against: -1 }, state));
      continue;
    }
    if (!isGiven && !isShownWhenAbsent(path, slots)) continue;
    if (key === 'wire') controls.push(wireControl(state, path, slot));
    controls.push(numberControl(study, state, input, false));
  }
  return [
    ...controls,
    windingKindControl(state),
    ...(Number.isNaN(slots[SLOT.loadWater]!)
      ? []
      : [coded('plate.load.cover', 'cover of the load', 'Plate', LOAD_COVERS, state)]),
    coded('plate.edge', 'edge of the plate', 'Plate', EDGES, state, 'as the radius suggests'),
    ...(Number.isNaN(slots[SLOT.fuseRating]!)
      ? []
      : [
          coded('supply.fuse.kind', 'kind of fuse', 'Supply', FUSE_KINDS, state),
          coded('supply.fuse.side', 'fuse on the side of', 'Supply', FUSE_SIDES, state),
        ]),
    coded('supply.isolated', 'isolating transformer', 'Supply', { no: 0, yes: 1 }, state),
    coded('supply.beyond', 'drives beyond the supply', 'Supply', BEYOND_SUPPLY, state),
  ];
}

/** The input of the knob; null where the drive goes up to what the supply gives. */
export function knobOf(study: LiveStudy, state: RigState): NumberControl | null {
  const slot = [SLOT.driveCurrent, SLOT.driveVoltage].find((each) => !Number.isNaN(state.slots[each]!));
  return slot === undefined ? null : numberControl(study, state, INPUTS[slot]!, false);
}

function isShownWhenAbsent(path: string, slots: Float64Array): boolean {
  if (!STANDALONE.has(path)) return false;
  const isOutlined = [SLOT.plateSquare, SLOT.plateSides].some((slot) => !Number.isNaN(slots[slot]!));
  return !(path === 'plate.radius' && isOutlined);
}

function numberControl(
  study: LiveStudy,
  state: RigState,
  input: InputSpec,
  isDetail: boolean,
): NumberControl {
  const varied = study.vary.find((each) => each.kind === 'number' && each.slot === input.slot);
  const levels = varied?.kind === 'number' ? varied.levels : new Float64Array(0);
  return {
    kind: 'number',
    id: idOf(input.path),
    group: groupOf(input.path),
    label: input.meaning,
    input,
    range: sliderRange(input, state.slots[input.slot]!, levels),
    optional: STANDALONE.has(input.path),
    isDetail,
  };
}

function coded(
  path: string,
  label: string,
  group: string,
  codes: Readonly<Record<string, number>>,
  { slots }: RigState,
  none?: string,
): ChoiceControl {
  const slot = slotOfPath(path);
  const options = [
    ...(none === undefined ? [] : [{ label: none, settings: [[slot, Number.NaN]] as Settings }]),
    ...Object.entries(codes).map(([name, code]): Option => ({ label: name, settings: [[slot, code]] })),
  ];
  const chosen = options.findIndex(({ settings }) => Object.is(settings[0]![1], slots[slot]));
  return { kind: 'choice', id: idOf(path), group, label, path: null, options, chosen, other: 'not given' };
}

function metalControl(study: LiveStudy, { slots, texts }: RigState, path: string): ChoiceControl {
  const slot = slotOfPath(`${path}.resistivity`);
  const present = metalAt(slots, slot);
  const own = ownMetals(study).filter(({ label }) => !CATALOGUE.some((each) => each.label === label));
  const metals = [...CATALOGUE, ...own];
  const options = metals.map(
    ({ label, numbers }): Option => ({
      label,
      settings: numbers.map((number, i) => [slot + i, number] as const),
    }),
  );
  const chosen = metals.findIndex(({ numbers }) => isSameMetal(numbers, present));
  return {
    kind: 'choice',
    id: idOf(path),
    group: groupOf(`${path}.resistivity`),
    label: path.startsWith('coil') ? 'metal of the wire' : 'metal of the plate',
    path,
    options,
    chosen,
    other: shortText(texts[path] ?? 'a metal of its own', 40),
  };
}

/** Metals that the study names by their own numbers. */
function ownMetals({ rig, vary }: LiveStudy): NamedMetal[] {
  const found = Object.entries(rig.texts)
    .filter(([path]) => path.endsWith('.metal'))
    .map(([path, label]) => ({ label, numbers: metalAt(rig.slots, slotOfPath(`${path}.resistivity`)) }));
  const varied = vary.flatMap((each) =>
    each.kind === 'choice' && each.path.endsWith('.metal')
      ? each.levels.map(({ label, settings }) => ({ label, numbers: settings.map(([, value]) => value) }))
      : [],
  );
  const known = new Map([...found, ...varied].map((metal) => [metal.label, metal]));
  return [...known.values()].filter(({ numbers }) => numbers.length === METAL_NUMBERS);
}

/** Sizes that IEC 60317-0-1 has an enamel for, and American gauges. */
function wireControl({ slots }: RigState, path: string, slot: number): ChoiceControl {
  const sizes = ENAMEL_INCREASE.map(([mm]): Option => ({ label: `${mm} mm`, settings: [[slot, mm / 1e3]] }));
  const gauges = Array.from(
    { length: AWG_RANGE.thinnest - 1 - FIRST_GAUGE },
    (_, i): Option => ({ label: `AWG ${FIRST_GAUGE + i}`, settings: [[slot, awgDiameter(FIRST_GAUGE + i)]] }),
  );
  const options = [...sizes, ...gauges];
  const chosen = options.findIndex(({ settings }) => settings[0]![1] === slots[slot]);
  return {
    kind: 'choice',
    id: `${idOf(path)}-size`,
    group: groupOf(path),
    label: 'wire from the catalogue',
    path: null,
    options,
    chosen,
    other: 'a size of its own',
  };
}

/** The thickest wire that one bends by hand. */
const FIRST_GAUGE = 4;

function gradeControl({ slots }: RigState, path: string, slot: number): ChoiceControl {
  const thickness = slot + 1;
  const wire = slots[SLOT.wire]!;
  const grades = [1, 2, 3].map(
    (grade): Option => ({
      label: `grade ${grade}`,
      settings: [
        [slot, grade],
        [thickness, Number.NaN],
      ],
    }),
  );
  const present = slots[thickness]!;
  const enamel = enamelThickness(wire, slots[slot]!);
  const own = [present, enamel, USUAL_ENAMEL].find(Number.isFinite)!;
  const byThickness: Option = {
    label: 'by its thickness',
    settings: [
      [slot, Number.NaN],
      [thickness, own],
    ],
  };
  const chosen = Number.isNaN(present)
    ? grades.findIndex(({ settings }) => settings[0]![1] === slots[slot])
    : 3;
  return {
    kind: 'choice',
    id: idOf(path),
    group: groupOf(path),
    label: 'enamel',
    path: path.replace(/\.grade$/, ''),
    options: [...grades, byThickness],
    chosen,
    other: 'as the coil',
  };
}

/** How the wires are held, or how well they conduct: the one takes the other away. */
function windingKindControl({ slots }: RigState): ChoiceControl {
  const present = slots[SLOT.windingConductivity]!;
  const setting = (kind: number, conductivity: number): Settings => [
    [SLOT.windingKind, kind],
    [SLOT.windingConductivity, conductivity],
  ];
  const kinds = Object.entries(WINDING_KINDS).map(
    ([label, kind]): Option => ({ label, settings: setting(kind, Number.NaN) }),
  );
  const own = Number.isNaN(present) ? USUAL_CONDUCTIVITY : present;
  return {
    kind: 'choice',
    id: idOf('coil.winding'),
    group: 'Coil',
    label: 'how the wires are held',
    path: null,
    options: [...kinds, { label: 'by its conductivity', settings: setting(WINDING_KINDS.loose, own) }],
    chosen: Number.isNaN(present) ? slots[SLOT.windingKind]! : kinds.length,
    other: 'not given',
  };
}

/** W/(m K), of a winding of enamelled wire; common practice, no source. */
const USUAL_CONDUCTIVITY = 0.5;

const USUAL_ENAMEL = 0.05e-3;

const GROUPS: readonly (readonly [prefix: RegExp, group: (match: RegExpExecArray) => string])[] = [
  [/^coil\.windings\.(\d+)/, ([, n]) => `Winding ${Number(n) + 1}`],
  [/^coil/, () => 'Coil'],
  [/^plate\.layers\.([1-9]\d*)/, ([, n]) => `Plate layer ${Number(n) + 1}`],
  [/^plate/, () => 'Plate'],
  [/^(standoff|guides)/, () => 'Standoff and guides'],
  [/^supply/, () => 'Supply'],
  [/^surroundings/, () => 'Surroundings'],
  [/^drive/, () => 'Drive'],
  [/^duty/, () => 'Duty'],
];

function groupOf(path: string): string {
  for (const [prefix, group] of GROUPS) {
    const match = prefix.exec(path);
    if (match) return group(match);
  }
  return 'Rig';
}

function idOf(path: string): string {
  return `set-${path.replaceAll('.', '-')}`;
}
