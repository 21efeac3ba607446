import { noteValue, noteWinding, WINDING_VALUES } from '../kernel/note-value.ts';
import type { CouplingPoint } from '../kernel/plate-coupling.ts';
import type { PlateStack } from '../kernel/plate-reflection.ts';
import type { Coil } from './coil.ts';
import { NumberedKeys } from './numbered-keys.ts';

/**
 * What coils over wide plates were found to be at their standoff, for designs that come back to the same coil and plate much
 * later: in a grid whose drive changes slowest each of them does. Such a design that rests needs no field at all.
 *
 * Coils and plates are numbered, then pairs of numbers. Their keys hold every number that the values depend on, so that
 * remembering never changes a bit of a row. Once full it keeps what it has: of a grid that goes through more than there is
 * room for before it comes back, what is kept serves each time, while whatever gave up the oldest would find nothing. It
 * begins anew where what it keeps hardly serves any more. Where it has served nobody so far and nobody knows what comes back, it
 * keeps one in SPARSE from then on, until one of these comes back.
 */
export class RestMemory {
  /** The number of the coil over its plate in hand where it came back, from 1; 0 where it did not. */
  pair = 0;
  private most = USUAL;
  private patience = UNKNOWN;
  private readonly onForget: () => void;
  private coils = new NumberedKeys(COIL, USUAL);
  private plates = new NumberedKeys(PLATE, USUAL);
  private pairs = new NumberedKeys(1, USUAL);
  private readonly coilKey = new Float64Array(COIL);
  private readonly coilWords = new Uint32Array(this.coilKey.buffer);
  private readonly plateKey = new Float64Array(PLATE);
  private readonly plateWords = new Uint32Array(this.plateKey.buffer);
  private readonly pairKey = new Float64Array(1);
  private readonly pairWords = new Uint32Array(this.pairKey.buffer);
  /** Numbers of the coil and plate in hand; -1: none. */
  private coil = -1;
  private plate = -1;
  private readonly pages: Float64Array[] = [];
  /** Where the values of the design in hand stand; -1: nowhere. */
  private page: Float64Array = NOTHING;
  private at = -1;
  private looked = 0;
  /** Whether the coil and plate in hand were looked for. */
  private isSought = false;
  private isSparse = false;
  /** Since it was full: what it had, and what it had no room for. */
  private served = 0;
  private refused = 0;

  /** @param onForget hears that pairs are numbered anew */
  constructor(onForget: () => void) {
    this.onForget = onForget;
  }

  /** How many coils over plates a grid goes through before it comes back to the first; 0 where nobody knows. */
  expect(pairs: number): void {
    this.most = Math.min(MOST, Math.max(USUAL, pairs));
    this.patience = pairs > 0 ? FULL * this.most : UNKNOWN;
    this.isSparse = false;
    this.coils = new NumberedKeys(COIL, this.most);
    this.plates = new NumberedKeys(PLATE, this.most);
    this.pairs = new NumberedKeys(1, this.most);
    this.forget();
  }

  /** Takes a coil and a plate in hand. */
  find(coil: Coil, plate: PlateStack, nearest: number, farthest: number): number {
    const isKept = isKnowable(coil, plate);
    const { coilKey, plateKey, pairKey } = this;
    if (!isKept) {
      coilKey[0] = Number.NaN;
      this.isSought = false;
      this.at = -1;
      this.pair = 0;
      return FOUND.not;
    }
    const sameCoil = this.noteCoil(coil, nearest, farthest);
    const samePlate = this.notePlate(plate);
    if (sameCoil && samePlate) return FOUND.same;
    this.at = -1;
    this.pair = 0;
    if (!sameCoil) this.coil = -1;
    if (!samePlate) this.plate = -1;
    this.isSought = this.isWorthwhile();
    if (!this.isSought) return FOUND.not;
    if (this.coil < 0) this.coil = this.coils.number(coilKey, this.coilWords);
    if (this.plate < 0) this.plate = this.plates.number(plateKey, this.plateWords);
    if (this.coil < 0 || this.plate < 0) return FOUND.not;
    pairKey[0] = this.coil * MOST + this.plate;
    const number = this.pairs.find(pairKey, this.pairWords);
    if (number < 0) return FOUND.not;
    this.take(number);
    this.pair = number + 1;
    this.served++;
    this.isSparse = false;
    return FOUND.known;
  }

  get freeInductance(): number {
    return this.page[this.at + FREE]!;
  }

  get field(): number {
    return this.page[this.at + FIELD]!;
  }

  /** Writes what the coupling is at the standoff. */
  readPoint(out: CouplingPoint): void {
    const { page, at } = this;
    out.inductanceRe = page[at + POINT]!;
    out.inductanceIm = page[at + POINT + 1]!;
    out.slopeRe = page[at + POINT + 2]!;
    out.slopeIm = page[at + POINT + 3]!;
    out.curvatureRe = page[at + POINT + 4]!;
    out.jerkRe = page[at + POINT + 5]!;
  }

  /** Whether the coil and plate in hand are such as can be remembered. */
  get isKept(): boolean {
    return !Number.isNaN(this.coilKey[0]!);
  }

  /** NaN where it is not known for these layers and this resistance. */
  unevenness(layers: number, resistance: number): number {
    const { page, at } = this;
    if (at < 0 || page[at + UNEVEN] !== layers || page[at + UNEVEN + 1] !== resistance) return Number.NaN;
    return page[at + UNEVEN + 2]!;
  }

  /** Remembers the coil and plate last looked for. */
  store(point: CouplingPoint, freeInductance: number, field: number): void {
    if (!this.isSought || this.at >= 0) return;
    const number = this.number();
    if (number < 0) {
      this.refuse();
      return;
    }
    this.take(number);
    const { page, at } = this;
    page[at + FREE] = freeInductance;
    page[at + FIELD] = field;
    page[at + POINT] = point.inductanceRe;
    page[at + POINT + 1] = point.inductanceIm;
    page[at + POINT + 2] = point.slopeRe;
    page[at + POINT + 3] = point.slopeIm;
    page[at + POINT + 4] = point.curvatureRe;
    page[at + POINT + 5] = point.jerkRe;
    page[at + UNEVEN] = Number.NaN;
  }

  storeUnevenness(layers: number, resistance: number, unevenness: number): void {
    const { page, at } = this;
    if (at < 0) return;
    page[at + UNEVEN] = layers;
    page[at + UNEVEN + 1] = resistance;
    page[at + UNEVEN + 2] = unevenness;
  }

  /** Whether the coil and plate in hand are looked for: what evaluates few designs needs none. */
  private isWorthwhile(): boolean {
    if (this.looked < WORTHWHILE && ++this.looked < WORTHWHILE) return false;
    if (!this.isSparse) return true;
    // by what they are, so that those chosen are chosen again when they come back
    const { coilWords, plateWords } = this;
    let mixed = 0;
    for (let w = 0; w < coilWords.length; w++) mixed ^= coilWords[w]!;
    for (let w = 0; w < plateWords.length; w++) mixed ^= plateWords[w]!;
    return Math.imul(mixed ^ (mixed >>> 15), GOLDEN) >>> 0 < 2 ** 32 / SPARSE;
  }

  /** A number for the pair in hand; -1: there is no room. */
  private number(): number {
    if (this.coil < 0 || this.plate < 0) return -1;
    const { pairs, pairKey, pairWords } = this;
    return pairs.number(pairKey, pairWords);
  }

  private take(number: number): void {
    const page = number >>> PAGE_BITS;
    while (page >= this.pages.length) this.pages.push(new Float64Array(PAGE * PLACE));
    this.page = this.pages[page]!;
    this.at = (number & (PAGE - 1)) * PLACE;
  }

  private refuse(): void {
    this.refused++;
    if (this.refused < this.patience) return;
    if (LEAST_SERVED * this.refused > this.served) this.forget();
    this.isSparse = this.patience === UNKNOWN && this.served === 0;
    this.served = 0;
    this.refused = 0;
  }

  private forget(): void {
    this.coils.clear();
    this.plates.clear();
    this.pairs.clear();
    this.coil = -1;
    this.plate = -1;
    this.at = -1;
    this.pair = 0;
    this.onForget();
  }

  /** Compares with the coil last seen and remembers this one. */
  private noteCoil(coil: Coil, nearest: number, farthest: number): boolean {
    const { coilKey } = this;
    let same = noteWinding(coilKey, 0, coil.windings[0]!.section);
    same = noteValue(coilKey, WINDING_VALUES, nearest) && same;
    return noteValue(coilKey, WINDING_VALUES + 1, farthest) && same;
  }

  /** Compares with the plate last seen and remembers this one. */
  private notePlate({ layers, layerCount, omega }: PlateStack): boolean {
    const { plateKey } = this;
    let same = noteValue(plateKey, 0, omega);
    for (let j = 0; j < MOST_LAYERS; j++) {
      const isThere = j < layerCount;
      same = noteValue(plateKey, 1 + 3 * j, isThere ? layers[j]!.resistivity : 0) && same;
      same = noteValue(plateKey, 2 + 3 * j, isThere ? layers[j]!.relativePermeability : 0) && same;
      same = noteValue(plateKey, 3 + 3 * j, isThere ? layers[j]!.thickness : 0) && same;
    }
    return same;
  }
}

/** False for several windings, for many layers and for iron. */
function isKnowable(coil: Coil, { layers, layerCount }: PlateStack): boolean {
  if (coil.count > 1 || layerCount > MOST_LAYERS) return false;
  for (let j = 0; j < layerCount; j++) if (layers[j]!.relativePermeability > LEAST_MAGNETIC) return false;
  return true;
}

/** The coil and plate in hand are those before, known from earlier, or neither. */
export const FOUND = Object.freeze({ not: 0, same: 1, known: 2 });

const MOST_LAYERS = 2;
/** Whatever reflects at every k is left out. */
const LEAST_MAGNETIC = 1;
const COIL = WINDING_VALUES + 2;
const PLATE = 1 + 3 * MOST_LAYERS;
/** Places of a pair's values. */
const FREE = 0;
const FIELD = 1;
const POINT = 2;
const UNEVEN = 8;
const PLACE = UNEVEN + 3;
const NOTHING = new Float64Array(0);
const PAGE_BITS = 10;
const PAGE = 2 ** PAGE_BITS;
/** Coils over plates where nobody knows how many come back, and the most of all: 13 MB a thread, 51 with their stations. */
const USUAL = 2 ** 14;
const MOST = 2 ** 17;
const WORTHWHILE = 256;
/** Full, it is judged when it has had no room for so many times what it holds: a grid comes back late, but all of it. */
const FULL = 4;
/** The same where nobody knows what comes back: a search moves on and leaves what is kept behind. */
const UNKNOWN = 2048;
/** Where nothing came back, one coil over a plate in so many is looked for. */
const SPARSE = 8;
/** 2^32 over the golden ratio: spreads what follows one another (D. E. Knuth, The Art of Computer Programming 3, 6.4). */
const GOLDEN = 0x9e3779b1;
/** It keeps what it holds where that served at least so often as a part of what there was no room for. */
const LEAST_SERVED = 1 / 4;
