import { fifthRootOfSquare, sixthRootOfSquare } from '../math/roots.ts';
import { type Air, airProperties } from './air.ts';
import { GRAVITY } from './constants.ts';

/**
 * Natural convection from isothermal surfaces in still air: mean heat transfer coefficients, W/(m2 K).
 *
 * `StillAir` holds what depends on the two temperatures alone, so that several faces of one body share it.
 * Source of all: F. P. Incropera, D. P. DeWitt, T. L. Bergman, A. S. Lavine, Fundamentals of Heat and Mass
 * Transfer, 7th ed., ch. 9 (from memory; eqs. 9.26, 9.30, 9.31 seen quoted at second hand). Correlations of this
 * kind are within 10 to 20 % of measurements; that is the accuracy of every temperature built on them.
 */
export interface StillAir {
  /** Place in the table of properties, and the part of the way to the next one. */
  at: number;
  part: number;
  /** Root of the size of the difference of temperature, K^(1/2). */
  root: number;
}

export function createStillAir(): StillAir {
  return { at: 0, part: 0.5, root: 0.5 };
}

/**
 * Air between a surface and its surroundings, both in K and between 100 and 2000: properties at the film temperature
 * (their mean), read from a table made when the module loads; the difference counts by its size alone.
 * Accuracy: 1e-4 relative to airProperties.
 */
export function stillAir(surface: number, surroundings: number, out: StillAir): void {
  let u = (surface + surroundings - 2 * FIRST) * PER_TWO_STEPS;
  if (u < 0) u = 0;
  else if (u > CELLS) u = CELLS;
  const cell = Math.min(u | 0, CELLS - 1);
  out.at = COLUMNS * cell;
  out.part = u - cell;
  out.root = Math.sqrt(Math.abs(surface - surroundings));
}

/** W/(m K) at the film temperature. */
export function conductivityOf({ at, part }: StillAir): number {
  return TABLE[at]! + part * (TABLE[at + COLUMNS]! - TABLE[at]!);
}

/** W/(m K) of air between a surface and another, both in K: at the film temperature. */
export function airConductivity(one: number, other: number): number {
  const u = Math.min(CELLS, Math.max(0, (one + other - 2 * FIRST) * PER_TWO_STEPS));
  const cell = Math.min(u | 0, CELLS - 1);
  const i = COLUMNS * cell;
  return TABLE[i]! + (u - cell) * (TABLE[i + COLUMNS]! - TABLE[i]!);
}

/**
 * Vertical plate of height L, m: Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}^2 for all Ra
 * (S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323-1329, doi:10.1016/0017-9310(75)90243-4;
 * Incropera eq. 9.26). Also the side of a vertical cylinder that is thick against its boundary layer, D/L >= 35 Gr^(-1/4).
 */
export function verticalCoefficient(air: StillAir, height: number): number {
  const { part, root } = air;
  const i = air.at + VERTICAL;
  const sixth = TABLE[i]! + part * (TABLE[i + COLUMNS]! - TABLE[i]!);
  const sum = 0.825 + sixth * sixthRootOfSquare(root) * Math.sqrt(height);
  return (conductivityOf(air) / height) * sum * sum;
}

/**
 * Horizontal face, hot and up or cold and down, of length L = area / perimeter, m: Nu = 0.54 Ra^(1/4) or
 * 0.15 Ra^(1/3), whichever is larger (Incropera eqs. 9.30, 9.31, McAdams, for 1e4-1e7 and 1e7-1e11: they disagree by
 * 6 % at 1e7 and cross at 4.7e6, where we change over so that nothing jumps). Below Ra = 1e4 an extrapolation that
 * errs to the hot side.
 */
export function freeFaceCoefficient({ at, part, root }: StillAir, length: number): number {
  const i = at + SLOW;
  const fourth = TABLE[i]! + part * (TABLE[i + COLUMNS]! - TABLE[i]!);
  const third = TABLE[i + 1]! + part * (TABLE[i + 1 + COLUMNS]! - TABLE[i + 1]!);
  const sixth = sixthRootOfSquare(root);
  return Math.max(fourth * Math.sqrt(root / Math.sqrt(length)), third * sixth * sixth);
}

/**
 * Horizontal face, hot and down or cold and up, of length L = area / perimeter, m: Nu = 0.52 Ra^(1/5) for 1e4-1e9
 * (Incropera eq. 9.32, 7th ed., from memory; E. Radziemska and W. M. Lewandowski, Applied Energy 68 (2001) 347-366).
 * @param shape of the face: trappedShape(L)
 */
export function trappedFaceCoefficient({ at, part, root }: StillAir, shape: number): number {
  const i = at + TRAPPED;
  const fifth = TABLE[i]! + part * (TABLE[i + COLUMNS]! - TABLE[i]!);
  return fifth * shape * fifthRootOfSquare(root);
}

/** L^(-2/5), of a face of length L = area / perimeter, m: taken once a face, as a power costs more than all the rest. */
export function trappedShape(length: number): number {
  return LARGER / fifthRootOfSquare(SCALE * length);
}

/**
 * A body's horizontal faces and upright sides in still air, lengths m, temperatures K: what the laws above ask of its shape, and
 * what they gave when one was last asked.
 */
export interface Surfaces {
  room: number;
  /** Temperature of the surface in hand, and what `stillAir` finds between it and the room. */
  surface: number;
  at: number;
  part: number;
  root: number;
  /** Cube root of `root`, of which free faces and sides make a power of the Rayleigh number. */
  sixth: number;
  /** L of its faces = area / perimeter, m, and L^(-1/4) and L^(-2/5). */
  length: number;
  freeShape: number;
  trappedShape: number;
  /** Of its sides: 1 / height, and the root of the height. */
  perHeight: number;
  rootHeight: number;
  /** Flux over excess, and how the flux rises with the temperature, W/(m2 K). */
  chord: number;
  slope: number;
}

export function createSurfaces(): Surfaces {
  return {
    room: 0.5,
    surface: 0.5,
    at: 0,
    part: 0.5,
    root: 0.5,
    sixth: 0.5,
    length: Number.NaN,
    freeShape: 0.5,
    trappedShape: 0.5,
    perHeight: 0.5,
    rootHeight: 0.5,
    chord: 0.5,
    slope: 0.5,
  };
}

/** @param length area over perimeter of the faces, m */
export function fillSurfaces(room: number, length: number, height: number, out: Surfaces): void {
  out.room = room;
  if (length !== out.length) {
    out.length = length;
    out.freeShape = 1 / Math.sqrt(Math.sqrt(length));
    out.trappedShape = trappedShape(length);
  }
  out.perHeight = 1 / height;
  out.rootHeight = Math.sqrt(height);
}

/**
 * The laws above with their slopes, for searches that follow tangents: `airAtSurface` once a surface, then one of the others. A
 * number that V8 hands from one function to another becomes an object where it does not carry the one into the other: what they
 * take and what they find stands in `out`.
 */
export function airAtSurface(out: Surfaces): void {
  const { surface, room } = out;
  let u = (surface + room - 2 * FIRST) * PER_TWO_STEPS;
  if (u < 0) u = 0;
  else if (u > CELLS) u = CELLS;
  let cell = u | 0;
  if (cell === CELLS) cell = CELLS - 1;
  out.at = COLUMNS * cell;
  out.part = u - cell;
  const root = Math.sqrt(Math.abs(surface - room));
  out.root = root;
  out.sixth = sixthRootOfSquare(root);
}

export function freeFace(out: Surfaces): void {
  const { at, part, root, sixth, surface, room } = out;
  const i = at + SLOW;
  const excess = surface - room;
  const third = sixth * sixth;
  const quick = TABLE[i + 1]! + part * (TABLE[i + 1 + COLUMNS]! - TABLE[i + 1]!);
  const slow = (TABLE[i]! + part * (TABLE[i + COLUMNS]! - TABLE[i]!)) * out.freeShape;
  const fourth = Math.sqrt(root);
  if (slow * fourth > quick * third) {
    out.chord = slow * fourth;
    const drift = (TABLE[i + COLUMNS]! - TABLE[i]!) * out.freeShape * PER_TWO_STEPS;
    out.slope = fourth * (slow * (5 / 4) + drift * excess);
  } else {
    out.chord = quick * third;
    const drift = (TABLE[i + 1 + COLUMNS]! - TABLE[i + 1]!) * PER_TWO_STEPS;
    out.slope = third * (quick * (4 / 3) + drift * excess);
  }
}

export function trappedFace(out: Surfaces): void {
  const { at, part, root, surface, room } = out;
  const i = at + TRAPPED;
  const change = TABLE[i + COLUMNS]! - TABLE[i]!;
  const fifth = fifthRootOfSquare(root) * out.trappedShape;
  const law = TABLE[i]! + part * change;
  out.chord = law * fifth;
  out.slope = fifth * (law * (6 / 5) + change * PER_TWO_STEPS * (surface - room));
}

export function uprightSide(out: Surfaces): void {
  const { at, part, sixth, surface, room } = out;
  const i = at + VERTICAL;
  const change = TABLE[i + COLUMNS]! - TABLE[i]!;
  const conductivityChange = TABLE[at + COLUMNS]! - TABLE[at]!;
  const shape = sixth * out.rootHeight;
  const excess = (surface - room) * PER_TWO_STEPS;
  const law = TABLE[i]! + part * change;
  const conductivity = TABLE[at]! + part * conductivityChange;
  const sum = 0.825 + law * shape;
  const square = sum * out.perHeight;
  out.chord = conductivity * sum * square;
  out.slope =
    square *
    (sum * (conductivity + conductivityChange * excess) +
      2 * conductivity * shape * (law / 6 + change * excess));
}

/** Faces of 3 mm to 0.16 m come from the table of roots. */
const SCALE = 300;
const LARGER = SCALE ** 0.4;

const FIRST = 100;
const STEP = 2.5;
const PER_TWO_STEPS = 1 / (2 * STEP);
const CELLS = 760;
const COLUMNS = 5;
/** Columns of the table. */
const VERTICAL = 1;
const SLOW = 2;
const TRAPPED = 4;
const TABLE = makeTable();

/**
 * Per temperature, with b = g times the buoyancy: conductivity k, the Prandtl factor times b^(1/6), k 0.54 b^(1/4),
 * k 0.15 b^(1/3), k 0.52 b^(1/5).
 */
function makeTable(): Float64Array {
  const table = new Float64Array(COLUMNS * (CELLS + 1));
  const air: Air = { conductivity: 0, buoyancy: 0, prandtl: 0 };
  for (let i = 0; i <= CELLS; i++) {
    airProperties(FIRST + i * STEP, air);
    const { conductivity, buoyancy, prandtl } = air;
    const b = GRAVITY * buoyancy;
    const row = COLUMNS * i;
    table[row] = conductivity;
    table[row + VERTICAL] = (0.387 * b ** (1 / 6)) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27);
    table[row + SLOW] = 0.54 * conductivity * b ** 0.25;
    table[row + SLOW + 1] = 0.15 * conductivity * Math.cbrt(b);
    table[row + TRAPPED] = 0.52 * conductivity * b ** 0.2;
  }
  return table;
}
