import {
  FLOATS,
  INPUTS,
  LAYER_THICKNESS,
  METAL_KEYS,
  METAL_SLOTS,
  type MetalNumber,
  REEL,
  SLOT,
  STOCK_SLOT,
} from '../model/inputs.ts';
import { METALS, type Metal } from '../model/metals.ts';
import { seriesByName } from '../model/series/series.ts';
import type { Choice, Study } from '../model/study.ts';

/**
 * What somebody may change about a rig, and how far. A number goes up or down through values of equal ratios, or through
 * the sizes that exist; of a choice every other level is one that may be taken.
 */
export type Lever =
  | {
      readonly kind: 'number';
      /** As a study calls it. */
      readonly path: string;
      readonly slot: number;
      /** Values to try, SI, the nearest first. */
      readonly values: readonly number[];
      /** Whether any value between two of them will do. */
      readonly between: boolean;
    }
  | { readonly kind: 'choice'; readonly path: string; readonly levels: readonly Choice[] };

/** Steps of a number that may take any value, and how far it goes. */
const STEP = 1.15;
const FARTHEST = 8;

function steps(slot: number, value: number, up: boolean): number[] {
  const { integer, minimum, maximum } = INPUTS[slot]!;
  const values: number[] = [];
  for (let factor = STEP; factor <= FARTHEST; factor *= STEP) {
    const far = up ? value * factor : value / factor;
    const next = integer ? (up ? Math.ceil(far) : Math.floor(far)) : roundedTo(slot, far);
    if (next >= minimum && next <= maximum && next !== value && next !== values.at(-1)) values.push(next);
  }
  return values;
}

/** Digits of a value that somebody sets or winds, in its unit. */
const DIGITS = 3;

/** To digits that somebody sets or winds; whole numbers stay whole. */
export function roundedTo(slot: number, si: number): number {
  const { unit, integer } = INPUTS[slot]!;
  return integer ? Math.round(si) : Number((si * unit.scale).toPrecision(DIGITS)) / unit.scale;
}

/** Everything that may be changed about a rig. `slots`: its inputs, SI, with their defaults. */
export function leversOf(study: Pick<Study, 'rig' | 'vary'>, slots: Float64Array): Lever[] {
  const { rig, vary } = study;
  const levers: Lever[] = [];
  const given = (slot: number) => slots[slot]! > 0;
  const any = (path: string, slot: number, ways: readonly ('up' | 'down')[]) => {
    if (!given(slot)) return;
    for (const way of ways) {
      const values = steps(slot, slots[slot]!, way === 'up');
      if (values.length > 0) levers.push({ kind: 'number', path, slot, values, between: true });
    }
  };
  const sizes = (
    path: string,
    slot: number,
    series: string,
    ways: readonly ('up' | 'down')[],
    farthest = FARTHEST,
  ) => {
    const own = slots[slot]!;
    if (!Number.isFinite(own)) return;
    const { values } = seriesByName(series)!;
    const within = values.filter((value) => value <= own * farthest && value >= own / farthest);
    for (const way of ways) {
      const beyond = within.filter((value) => (way === 'up' ? value > own * SAME : value < own / SAME));
      if (way === 'down') beyond.reverse();
      if (beyond.length > 0) levers.push({ kind: 'number', path, slot, values: beyond, between: false });
    }
  };
  const varied = (path: string) => vary.find((one) => one.path === path && one.kind === 'choice');
  const choice = (path: string, levels: readonly Choice[]) => {
    if (levels.length > 0) levers.push({ kind: 'choice', path, levels });
  };

  any('drive.current', SLOT.driveCurrent, ['up']);
  any('drive.voltage', SLOT.driveVoltage, ['up']);
  if (Number.isNaN(slots[SLOT.driveCurrent]!) && Number.isNaN(slots[SLOT.driveVoltage]!)) {
    const transformers = varied('supply.transformer');
    if (transformers?.kind === 'choice') choice('supply.transformer', transformers.levels);
    else {
      any('supply.max_voltage', SLOT.maxVoltage, ['up']);
      any('supply.max_current', SLOT.maxCurrent, ['up']);
    }
    const fuses = varied('supply.fuse.rating');
    if (fuses?.kind === 'choice') choice('supply.fuse', fuses.levels);
    else if (given(SLOT.fuseRating)) sizes('supply.fuse', SLOT.fuseRating, 'gG', ['up']);
  }
  if (rig.windings === 0) {
    any('coil.turns', SLOT.turns, ['up', 'down']);
    any('coil.layers', SLOT.layers, ['up', 'down']);
    any('coil.inner_radius', SLOT.innerRadius, ['up', 'down']);
    const reels = varied('coil.wire');
    if (reels?.kind === 'choice') choice('coil.wire', reels.levels);
    else {
      sizes('coil.wire', SLOT.wire, 'R 20', ['up', 'down']);
      choice('coil.metal', metals(SLOT.coilMetal, slots, ['copper', 'aluminium'], WIRE_PRICES));
    }
  }
  any('standoff', SLOT.standoff, ['down']);
  if (slots[SLOT.floats] === FLOATS.coil) any('coil.extra_mass', SLOT.coilExtraMass, ['down']);
  const sheets = varied('plate.layers.0.thickness');
  if (sheets?.kind === 'choice') choice('plate.thickness', sheets.levels);
  else {
    // a foil becomes a plate at once
    sizes('plate.thickness', SLOT.plateLayers + LAYER_THICKNESS, 'plate', ['up'], Number.POSITIVE_INFINITY);
    if (slots[SLOT.floats] === FLOATS.plate) {
      sizes('plate.thickness', SLOT.plateLayers + LAYER_THICKNESS, 'plate', ['down']);
    }
    const better = METALS.filter(
      ({ resistivity, relativePermeability }) =>
        resistivity.value < slots[SLOT.plateLayers + METAL_SLOTS.resistivity]! &&
        relativePermeability.value < MAGNETIC,
    ).map(({ name }) => name);
    choice('plate.metal', metals(SLOT.plateLayers, slots, better, PLATE_PRICES));
  }
  if (Number.isNaN(slots[SLOT.plateSquare]!) && Number.isNaN(slots[SLOT.plateSides]!)) {
    any('plate.radius', SLOT.plateRadius, ['up']);
  } else any('plate.square', SLOT.plateSquare, ['up']);
  return levers;
}

/** A size of a series this close is the rig's own. */
const SAME = 1 + 1e-6;
/** Relative permeability above which a plate attracts, more or less. */
const MAGNETIC = 1.1;

/** A price is that of a metal: of another one it is not known. */
const WIRE_PRICES = [REEL.priceKg, REEL.priceM, REEL.price].map((offset) => STOCK_SLOT.wire + offset);
const PLATE_PRICES = [STOCK_SLOT.platePriceKg, STOCK_SLOT.platePriceM2, STOCK_SLOT.sheetPrice];

function metals(
  slot: number,
  slots: Float64Array,
  names: readonly string[],
  prices: readonly number[],
): Choice[] {
  return METALS.filter(
    (metal) =>
      names.includes(metal.name) && metal.resistivity.value !== slots[slot + METAL_SLOTS.resistivity]!,
  ).map((metal) => ({
    label: metal.name,
    settings: [
      ...(Object.keys(METAL_KEYS) as MetalNumber[]).flatMap((key) => numberOf(metal, key, slot)),
      ...prices.map((price) => [price, Number.NaN] as const),
    ],
  }));
}

function numberOf(metal: Metal, key: MetalNumber, slot: number): (readonly [number, number])[] {
  return [[slot + METAL_SLOTS[key], metal[key]?.value ?? Number.NaN]];
}
