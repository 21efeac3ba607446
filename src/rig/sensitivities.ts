import { type Columns, createScratch, evaluateProgram } from '../expression/evaluate-program.ts';
import { INPUTS, SLOT, WINDING } from '../model/inputs.ts';
import type { Program } from '../model/program.ts';
import { quantityColumns } from '../model/quantities.ts';
import { column } from '../model/rows.ts';
import { isEvaluated } from '../model/status.ts';
import type { Task, Varied } from '../model/study.ts';
import { UNITS } from '../model/units.ts';
import { createDesignReader } from './design.ts';
import { MAGNETIC } from './geometry.ts';
import { createJudge } from './judge.ts';
import { createLaws } from './laws.ts';
import { neededLaws, readQuantities } from './needed-laws.ts';
import { sidesOf } from './plate-outline.ts';

/** An input of a design that was moved a little, down and up. */
export interface MovedInput {
  /** As a study calls it. */
  readonly path: string;
  readonly slot: number;
  /** What the design has, SI. */
  readonly value: number;
  readonly down: number;
  readonly up: number;
  /** Whether slopes are per per-cent of it; else per kelvin: a temperature has no per cent. */
  readonly perCent: boolean;
}

/** What a small change of each input does to one design. SI. */
export interface Sensitivities {
  readonly moved: readonly MovedInput[];
  /** Of each program: what the design has. */
  readonly own: Float64Array;
  /** Of each program what it has with an input down and up, a value an input; NaN where the rig no longer floats, or does. */
  readonly below: readonly Float64Array[];
  readonly above: readonly Float64Array[];
}

/**
 * What comes of an input: `more` for one per cent (or one kelvin) more of it. Where up and down do not agree, as where
 * another reel is needed or another limit holds the drive, there is no slope: what became of it either way.
 */
export type Sensitivity =
  | { readonly kind: 'slope'; readonly more: number }
  | { readonly kind: 'step'; readonly up: number; readonly down: number };

/** A change is rounding where it is below this share of the quantity itself. */
const ROUNDING = 1e-7;
/** Up and down agree where they differ by no more than this share of the larger one. */
const AGREE = 0.5;

/** Of program `q` to the moved input `m`; null where it has none. */
export function sensitivityOf(
  { moved, own, below, above }: Sensitivities,
  q: number,
  m: number,
): Sensitivity | null {
  const { value, down, up, perCent } = moved[m]!;
  const at = own[q]!;
  const real = (change: number) => {
    if (!Number.isFinite(change)) return Number.NaN;
    return Math.abs(change) > ROUNDING * Math.abs(at) ? change : 0;
  };
  const rise = real(above[q]![m]! - at);
  const fall = real(below[q]![m]! - at);
  const unit = perCent ? STEP * Math.abs(value) : KELVIN;
  const upward = (rise / (up - value)) * unit;
  const downward = (-fall / (value - down)) * unit;
  if (Number.isFinite(upward) && Number.isFinite(downward)) {
    const differ = Math.abs(upward - downward) > AGREE * Math.max(Math.abs(upward), Math.abs(downward));
    if (differ) return { kind: 'step', up: rise, down: fall };
    return { kind: 'slope', more: ((rise - fall) / (up - down)) * unit };
  }
  const only = Number.isFinite(upward) ? upward : downward;
  return Number.isFinite(only) ? { kind: 'slope', more: only } : null;
}

/** How much it is, whichever way. */
export function sizeOf(found: Sensitivity | null): number {
  if (found === null) return 0;
  return found.kind === 'slope' ? Math.abs(found.more) : Math.max(Math.abs(found.up), Math.abs(found.down));
}

/** An input is moved by so much of itself each way: rounding of the laws stays far below, third derivatives too. */
const STEP = 0.01;
/** A temperature, K. */
const KELVIN = 1;

/**
 * Computes for single designs how much these programs change per per-cent of each input that the study gives. Codes and small
 * whole numbers (layers, wires in hand) have no per cent; turns move by one in each layer, so that layers stay full.
 * @returns from a design's varied values; null where it has no answer
 */
export function createSensitivities(
  task: Task,
  programs: readonly Program[],
): (values: Float64Array) => Sensitivities | null {
  const { rig, vary } = task;
  const { named, judge } = createJudge({ derive: task.derive, limits: [], objectives: [] });
  const ownNames = programs.flat().flatMap((each) => (each.op === 'input' ? [each.slot] : []));
  const kept = [...new Set([...named, ...ownNames])];
  const needed = neededLaws(readQuantities(programs, task.derive));
  const laws = createLaws(rig.plateLayers, rig.windings, task.requested, needed);
  const width = quantityColumns(task.requested);
  const scratch = createScratch();
  const given = givenSlots(task);

  return (values) => {
    const reader = createDesignReader(task);
    reader.read(values, 0);
    const own = reader.slots.slice();
    const moves = given.flatMap((slot) => movesOf(slot, own, rig.windings));

    // the design itself, then each input down and up
    const count = 1 + 2 * moves.length;
    const rows = {
      first: 0,
      count,
      status: new Uint8Array(count),
      quantities: new Float64Array(width * count),
    };
    const inputs = new Map(kept.map((slot) => [slot, new Float64Array(count)]));
    const evaluate = (slots: Float64Array, row: number) => {
      laws.evaluate(slots);
      rows.status[row] = laws.status;
      for (let q = 0; q < width; q++) rows.quantities[q * count + row] = laws.results[q]!;
      for (const [slot, cells] of inputs) cells[row] = slots[slot]!;
    };
    evaluate(own, 0);
    if (!isEvaluated(rows.status[0]!)) return null;
    const at = new Float64Array(vary.length + 1);
    at.set(values.subarray(0, vary.length));
    moves.forEach(({ slot, down, up }, m) => {
      // what follows from it, follows: a winding without a temperature of its own has that of the room
      const moving = createDesignReader({ rig, vary: [...vary, extra(slot)] });
      [down, up].forEach((value, side) => {
        at[vary.length] = value;
        moving.read(at, 0);
        evaluate(moving.slots, 1 + 2 * m + side);
      });
    });

    const { derived } = judge(rows, inputs, null);
    const columns: Columns = {
      count,
      quantity: (index) => column(rows, rows.quantities, index),
      input: (slot) => inputs.get(slot)!,
      derived: (index) => column({ count }, derived, index),
    };
    const cells = programs.map((program) => {
      const out = new Float64Array(count);
      evaluateProgram(program, columns, out, scratch);
      return out;
    });
    const isLike = (row: number) => rows.status[row] === rows.status[0];
    const side = (column: Float64Array, first: number) =>
      Float64Array.from(moves, (_, m) => (isLike(first + 2 * m) ? column[first + 2 * m]! : Number.NaN));
    return {
      moved: moves,
      own: Float64Array.from(cells, (column) => column[0]!),
      below: cells.map((column) => side(column, 1)),
      above: cells.map((column) => side(column, 2)),
    };
  };
}

const slotsLike = (pattern: RegExp): ReadonlySet<number> =>
  new Set(INPUTS.filter(({ path }) => pattern.test(path)).map(({ slot }) => slot));
const TURNS = slotsLike(/^coil\.(windings\.\d\.)?turns$/);
const PERMEABILITIES = slotsLike(/\.relative_permeability$/);
/** By their numbers alone: what stands for a word, what comes from the store, what is few and whole. */
const MOVABLE: ReadonlySet<number> = new Set(
  INPUTS.filter(
    ({ path, slot, integer, minimum }) =>
      Number.isFinite(minimum) && (!integer || TURNS.has(slot)) && !path.startsWith('stock.'),
  ).map(({ slot }) => slot),
);

/** What a study gives or varies, and the room, which it always has. */
function givenSlots({ rig, vary }: Pick<Task, 'rig' | 'vary'>): number[] {
  const varied = vary.flatMap((one) =>
    one.kind === 'number' ? [one.slot] : one.levels.flatMap(({ settings }) => settings.map(([slot]) => slot)),
  );
  const given = new Set([...varied, SLOT.surroundings]);
  rig.slots.forEach((value, slot) => {
    if (!Number.isNaN(value)) given.add(slot);
  });
  return INPUTS.map(({ slot }) => slot).filter((slot) => given.has(slot) && MOVABLE.has(slot));
}

/** How far an input goes each way; none where it cannot, or means nothing. */
function movesOf(slot: number, own: Float64Array, windings: number): MovedInput[] {
  const value = own[slot]!;
  const { path, unit, minimum, maximum } = INPUTS[slot]!;
  if (!Number.isFinite(value) || value === 0) return [];
  // the disc that stands for a square follows from its side
  if (slot === SLOT.plateRadius && sidesOf(own)) return [];
  if (PERMEABILITIES.has(slot) && value < MAGNETIC) return [];
  const perCent = unit !== UNITS.degC;
  const by = TURNS.has(slot) ? fullLayers(slot, own, windings) : perCent ? STEP * Math.abs(value) : KELVIN;
  const down = Math.max(value - by, minimum);
  const up = Math.min(value + by, maximum);
  return up > down ? [{ path, slot, value, down, up, perCent }] : [];
}

/** One turn more in every layer; of a section fixed by hand about one per cent. */
function fullLayers(slot: number, own: Float64Array, windings: number): number {
  const first = slot - WINDING.turns;
  const layers =
    windings === 0
      ? own[SLOT.layers]!
      : Number.isNaN(own[first + WINDING.layers]!)
        ? own[SLOT.layers]!
        : own[first + WINDING.layers]!;
  return Number.isNaN(layers) ? Math.max(1, Math.round(STEP * own[slot]!)) : layers;
}

const NO_LEVELS = new Float64Array(0);

/** An input that varies besides what a study varies; only its slot is read. */
function extra(slot: number): Varied {
  const { path, name, unit, meaning, integer } = INPUTS[slot]!;
  return { kind: 'number', path, name, column: name, unit, slot, meaning, integer, levels: NO_LEVELS };
}
