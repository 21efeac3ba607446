import {
  BEYOND_SUPPLY,
  EDGES,
  FLOATS,
  FUSE_KINDS,
  FUSE_SIDES,
  INPUTS,
  type InputSpec,
  ISOLATED,
  LOAD_COVERS,
  METAL_KEYS,
  METAL_SLOTS,
  SLOT,
  TRANSPOSED,
  WINDING_KINDS,
} from '../model/inputs.ts';
import { fromUnit, inputToUnit } from '../model/units.ts';
import type { LiveData } from './live-data.ts';
import { CATALOGUE, isSameMetal, metalAt, type RigState } from './rig-state.ts';

/** A mapping of a study file on its way to text. */
interface Mapping {
  [key: string]: Mapping | Leaf | Mapping[];
}
type Leaf = string | number | boolean;

/** Units that study files read by these symbols; of anything else the plain SI number is written. */
const SYMBOLS: ReadonlySet<string> = new Set(['mm', 'm', 'kg', 'A', 'V', 'Hz']);

/** The rig of a state as a study file of one design: `eddylift run` computes the same figures for it. */
export function studyText({ study, otherSections }: LiveData, state: RigState): string {
  const { slots } = state;
  const drive = driveOf(slots);
  const standoff = textOf(INPUTS[SLOT.standoff]!, slots[SLOT.standoff]!);
  return [
    '# Written by the live page: one design, as its controls stood.\n',
    `study: ${JSON.stringify(study.title)}\n`,
    block({ rig: rigOf(state) }, 0),
    typeof drive === 'string' ? `drive: ${drive}\n` : block({ drive }, 0),
    block({ vary: { standoff: `[${standoff}]` } }, 0),
    otherSections,
    'plan: {grid: {}}\n',
  ].join('');
}

function driveOf(slots: Float64Array): string | Mapping {
  for (const [key, slot] of [
    ['current', SLOT.driveCurrent],
    ['voltage', SLOT.driveVoltage],
  ] as const) {
    if (!Number.isNaN(slots[slot]!)) return { [key]: textOf(INPUTS[slot]!, slots[slot]!) };
  }
  return 'supply limit';
}

const WORDS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  floats: FLOATS,
  'plate.edge': EDGES,
  'supply.fuse.kind': FUSE_KINDS,
  'supply.fuse.side': FUSE_SIDES,
  'supply.beyond': BEYOND_SUPPLY,
  'coil.strands.transposed': TRANSPOSED,
};

function rigOf({ slots, texts }: RigState): Mapping {
  const rig: Mapping = {};
  for (const input of INPUTS) {
    const { path, slot } = input;
    const value = slots[slot]!;
    if (Number.isNaN(value) || /^(drive|stock)\./.test(path)) continue;
    const metal = /^(.*\.metal)\.(\w+)$/.exec(path);
    if (metal) {
      if (metal[2] === METAL_KEYS.resistivity) put(rig, metal[1]!, metalOf(slots, slot, texts[metal[1]!]));
    } else if (path in WORDS) {
      put(rig, path, wordOf(WORDS[path]!, value));
    } else if (path === 'coil.winding') {
      if (Number.isNaN(slots[SLOT.windingConductivity]!)) put(rig, path, wordOf(WINDING_KINDS, value));
    } else if (path === 'coil.winding.conductivity') put(rig, 'coil.winding', value);
    else if (path === 'plate.load.cover') {
      if (!Number.isNaN(slots[SLOT.loadWater]!)) put(rig, path, wordOf(LOAD_COVERS, value));
    } else if (path === 'supply.isolated') put(rig, path, value === ISOLATED.true);
    else if (path.endsWith('insulation.grade')) put(rig, path.replace('.grade', ''), `grade ${value}`);
    else if (path.endsWith('insulation.thickness')) {
      if (Number.isNaN(slots[slot - 1]!)) put(rig, path.replace('.thickness', ''), textOf(input, value));
    } else if (path === 'coil.strands' && !Number.isNaN(slots[SLOT.transposed]!)) {
      put(rig, 'coil.strands.count', value);
    } else put(rig, path === 'standoff' ? 'standoff.thickness' : path, textOf(input, value));
  }
  // a study has a fuse or none
  const supply = rig.supply as Mapping | undefined;
  if (Number.isNaN(slots[SLOT.fuseRating]!) && supply) delete supply.fuse;
  return listed(rig);
}

function wordOf(codes: Readonly<Record<string, number>>, value: number): string {
  return Object.entries(codes).find(([, code]) => code === value)![0];
}

function metalOf(slots: Float64Array, slot: number, label = 'custom'): Leaf | Mapping {
  const numbers = metalAt(slots, slot);
  const known = CATALOGUE.find((metal) => isSameMetal(metal.numbers, numbers));
  if (known) return known.label;
  const own = (Object.keys(METAL_KEYS) as (keyof typeof METAL_KEYS)[]).map((key) => [
    METAL_KEYS[key],
    numbers[METAL_SLOTS[key]]!,
  ]);
  return {
    name: JSON.stringify(label),
    ...Object.fromEntries(own.filter(([, number]) => !Number.isNaN(number))),
  };
}

function textOf({ unit, path }: InputSpec, si: number): Leaf {
  if (si === Number.POSITIVE_INFINITY && path.endsWith('.thickness')) return 'thick';
  const read = inputToUnit(si, unit);
  // of a few numbers no text in millimetres reads back to the last bit
  if (SYMBOLS.has(unit.symbol) && fromUnit(read, unit) === si) return `${read} ${unit.symbol}`;
  return unit.offset === 0 ? si : inputToUnit(si, unit);
}

function put(mapping: Mapping, path: string, value: Leaf | Mapping): void {
  const keys = path.split('.');
  let inner = mapping;
  for (const key of keys.slice(0, -1)) {
    inner[key] ??= {};
    inner = inner[key] as Mapping;
  }
  inner[keys.at(-1)!] = value;
}

/** Mappings whose keys are 0, 1, ... are lists. */
function listed(mapping: Mapping): Mapping {
  const entries = Object.entries(mapping).map(([key, value]): [string, Mapping[string]] => {
    if (typeof value !== 'object' || Array.isArray(value)) return [key, value];
    const inner = listed(value);
    const keys = Object.keys(inner);
    return [
      key,
      keys.length > 0 && keys.every((each, i) => each === String(i))
        ? (Object.values(inner) as Mapping[])
        : inner,
    ];
  });
  return Object.fromEntries(entries);
}

function block(mapping: Mapping, depth: number): string {
  const indent = '  '.repeat(depth);
  return Object.entries(mapping)
    .map(([key, value]) => {
      if (Array.isArray(value))
        return `${indent}${key}:\n${value.map((item) => `${indent}  - ${flow(item)}\n`).join('')}`;
      return typeof value === 'object'
        ? `${indent}${key}:\n${block(value, depth + 1)}`
        : `${indent}${key}: ${value}\n`;
    })
    .join('');
}

function flow(item: Mapping | Leaf): string {
  if (typeof item !== 'object') return String(item);
  const inner = Object.entries(item).map(([key, value]) => `${key}: ${flow(value as Mapping | Leaf)}`);
  return `{${inner.join(', ')}}`;
}
