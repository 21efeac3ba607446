import type { Problem } from '../errors.ts';
import {
  BEYOND_SUPPLY,
  EDGES,
  FLOATS,
  FUSE_KINDS,
  FUSE_SIDES,
  INPUTS,
  ISOLATED,
  inputByPath,
  LAYER_SLOTS,
  LAYER_THICKNESS,
  LOAD_COVERS,
  SLOT,
  TRANSPOSED,
  WINDING,
  WINDING_KINDS,
  WINDING_SLOTS,
} from '../model/inputs.ts';
import type { RigTemplate } from '../model/study.ts';
import type { Positions } from './positions.ts';
import type { DriveShape, FROM_STOCK, InsulationValue, MetalValue, RigShape } from './schema.ts';

/** What a study without a word on it means, SI. */
const DEFAULTS: readonly (readonly [slot: number, si: number])[] = [
  [SLOT.strands, 1],
  [SLOT.coilExtraMass, 0],
  [SLOT.plateExtraMass, 0],
  [SLOT.surroundings, 293.15],
  [SLOT.restitution, 0.3],
  [SLOT.guidesDrag, 0],
  [SLOT.windingKind, WINDING_KINDS.loose],
  [SLOT.loadCover, LOAD_COVERS.lid],
  [SLOT.seriesResistance, 0],
  [SLOT.fuseKind, FUSE_KINDS.gG],
  [SLOT.fuseSide, FUSE_SIDES.coil],
  [SLOT.isolated, ISOLATED.false],
  [SLOT.beyondSupply, BEYOND_SUPPLY.refused],
];

type Settings = readonly (readonly [slot: number, value: number])[];

export function metalSettings(slot: number, metal: MetalValue): Settings {
  return metal.numbers.map((number, i) => [slot + i, number] as const);
}

export function insulationSettings({ grade, thickness }: InsulationValue): Settings {
  return [
    [SLOT.insulationGrade, grade],
    [SLOT.insulationThickness, thickness],
  ];
}

export function windingSlot(winding: number): number {
  return SLOT.windings + winding * WINDING_SLOTS;
}

export function layerSlot(layer: number): number {
  return SLOT.plateLayers + layer * LAYER_SLOTS;
}

type StrandsValue = NonNullable<RigShape['coil']>['strands'];

interface Given {
  readonly slots: Float64Array;
  readonly texts: Record<string, string>;
  readonly problems: Problem[];
  readonly positions: Positions;
}

/** Wires in hand given by a mapping: at the coil or at a winding. */
function setStrands(
  { slots, texts, problems, positions }: Given,
  held: StrandsValue,
  path: string,
  at: (key: 'wire' | 'strands' | 'transposed') => number,
): void {
  if (typeof held !== 'object') return;
  const { count, diameter, transposed } = held;
  if (count !== undefined) slots[at('strands')] = count;
  if (diameter !== undefined) {
    if (!Number.isNaN(slots[at('wire')]!)) {
      const below = path.split('.').map((each) => (/^\d+$/.test(each) ? Number(each) : each));
      problems.push({
        code: 'wire-twice',
        found: '`diameter` of the strands beside `wire`',
        wanted: 'one of them',
        ...positions.key(['rig', ...below, 'strands', 'diameter']),
      });
    }
    slots[at('wire')] = diameter;
  }
  if (transposed !== undefined) {
    slots[at('transposed')] = TRANSPOSED[transposed];
    texts[`${path}.strands.transposed`] = transposed;
  }
}

/** NaN for what is left out or comes from stock. */
function numberOr(value: number | typeof FROM_STOCK | undefined): number {
  return typeof value === 'number' ? value : Number.NaN;
}

/** The rig of the file, with its defaults, as slots and texts; parts that are missing stay NaN. */
export function fillRig(
  rig: RigShape | undefined,
  drive: DriveShape | undefined,
  positions: Positions,
): { template: RigTemplate; problems: readonly Problem[] } {
  const slots = new Float64Array(INPUTS.length).fill(Number.NaN);
  const texts: Record<string, string> = {};
  const problems: Problem[] = [];
  const settings = (pairs: Settings): void => {
    for (const [slot, value] of pairs) slots[slot] = value;
  };
  settings(DEFAULTS);
  const numbers = (value: unknown, path: string): void => {
    if (typeof value === 'number') {
      const input = inputByPath(path);
      if (input) slots[input.slot] = value;
    } else if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) numbers(inner, path === '' ? key : `${path}.${key}`);
    }
  };
  numbers({ ...rig, ...(typeof drive === 'object' && { drive }) }, '');

  if (rig?.floats !== undefined) {
    slots[SLOT.floats] = FLOATS[rig.floats];
    texts.floats = rig.floats;
  }
  const edge = rig?.plate?.edge;
  if (edge !== undefined) {
    slots[SLOT.plateEdge] = EDGES[edge];
    texts['plate.edge'] = edge;
  }
  const cover = rig?.plate?.load?.cover;
  if (cover !== undefined) {
    slots[SLOT.loadCover] = LOAD_COVERS[cover];
    texts['plate.load.cover'] = cover;
  }
  const { metal, insulation, windings, winding: held } = rig?.coil ?? {};
  if (held) {
    slots[SLOT.windingKind] = held.kind;
    slots[SLOT.windingConductivity] = held.conductivity;
    texts['coil.winding'] = held.label;
  }
  if (metal) {
    settings(metalSettings(SLOT.coilMetal, metal));
    texts['coil.metal'] = metal.label;
  }
  if (insulation) {
    settings(insulationSettings(insulation));
    texts['coil.insulation'] = insulation.label;
  }
  const given = { slots, texts, problems, positions };
  setStrands(given, rig?.coil?.strands, 'coil', (key) => SLOT[key]);
  windings?.forEach((winding, i) => {
    const slot = windingSlot(i);
    setStrands(given, winding.strands, `coil.windings.${i}`, (key) => slot + WINDING[key]);
    if (winding.metal) {
      settings(metalSettings(slot, winding.metal));
      texts[`coil.windings.${i}.metal`] = winding.metal.label;
    }
    if (winding.insulation) {
      slots[slot + WINDING.insulationGrade] = winding.insulation.grade;
      slots[slot + WINDING.insulationThickness] = winding.insulation.thickness;
      texts[`coil.windings.${i}.insulation`] = winding.insulation.label;
    }
  });
  const own = ['turns', 'inner_radius', 'section'] as const;
  const twice = windings && own.find((key) => rig?.coil?.[key] !== undefined);
  if (twice) {
    problems.push({
      code: 'winding-twice',
      found: `\`${twice}\` of the coil beside a list of windings`,
      wanted: `\`${twice}\` in each winding`,
      ...positions.key(['rig', 'coil', twice]),
    });
  }
  if (typeof rig?.standoff === 'object') slots[SLOT.standoff] = rig.standoff.thickness ?? Number.NaN;
  const fuse = rig?.supply?.fuse;
  if (fuse !== undefined) {
    const {
      rating = Number.NaN,
      kind = 'gG',
      side = 'coil',
    } = typeof fuse === 'object' ? fuse : { rating: fuse };
    slots[SLOT.fuseRating] = numberOr(rating);
    slots[SLOT.fuseKind] = FUSE_KINDS[kind];
    slots[SLOT.fuseSide] = FUSE_SIDES[side];
    texts['supply.fuse.kind'] = kind;
    texts['supply.fuse.side'] = side;
  }

  const transformer = rig?.supply?.transformer;
  if (typeof transformer === 'object' && Number.isNaN(slots[SLOT.maxCurrent]!)) {
    slots[SLOT.maxCurrent] = transformer.overload?.at(-1)?.current ?? transformer.current ?? Number.NaN;
  }
  const { isolated, beyond } = rig?.supply ?? {};
  if (isolated !== undefined) {
    slots[SLOT.isolated] = ISOLATED[`${isolated}`];
    texts['supply.isolated'] = `${isolated}`;
  }
  if (beyond !== undefined) {
    slots[SLOT.beyondSupply] = BEYOND_SUPPLY[beyond];
    texts['supply.beyond'] = beyond;
  }

  const { layers, metal: plateMetal, thickness } = rig?.plate ?? {};
  if (layers !== undefined && (plateMetal !== undefined || thickness !== undefined)) {
    problems.push({
      code: 'plate-twice',
      found: 'layers beside the metal or thickness of a single plate',
      wanted: 'either metal and thickness, or layers',
      ...positions.key(['rig', 'plate', 'layers']),
    });
  }
  const plate = layers ?? [{ metal: plateMetal, thickness }];
  plate.forEach((layer, i) => {
    const slot = layerSlot(i);
    if (layer.metal) {
      settings(metalSettings(slot, layer.metal));
      texts[`plate.layers.${i}.metal`] = layer.metal.label;
    }
    slots[slot + LAYER_THICKNESS] = numberOr(layer.thickness);
    if (layer.thickness === Number.POSITIVE_INFINITY && i < plate.length - 1) {
      problems.push({
        code: 'thick-inside',
        found: '`thick` above another layer',
        wanted: 'a thickness; only the last layer may be thick',
        ...positions.value(['rig', 'plate', 'layers', i, 'thickness']),
      });
    }
  });
  return { template: { slots, plateLayers: plate.length, windings: windings?.length ?? 0, texts }, problems };
}
