import type { CouplingPoint } from '../kernel/plate-coupling.ts';
import type { PlateStack } from '../kernel/plate-reflection.ts';
import type { Coil } from './coil.ts';

/**
 * What coils over wide plates were found to be at their standoff, for designs that come back to the same coil and plate much
 * later: in a grid whose drive changes slowest each of them does. Such a design that rests needs no field at all.
 *
 * A set of places by hash, four to a set, the oldest given up first. A key holds every number that the values depend on, so
 * that remembering never changes a bit of a row.
 */
export class RestMemory {
  private cells = new Float64Array(0);
  private readonly next = new Uint8Array(SETS);
  private readonly key = new Float64Array(KEY);
  private readonly words = new Uint32Array(this.key.buffer);
  private readonly lastKey = new Float64Array(KEY).fill(Number.NaN);
  private set = 0;
  private stored = 0;
  /** Where the values of the design in hand stand in `cells`; -1: nowhere. */
  private at = -1;
  /** The number of the coil over its plate in hand where it came back, from 1; 0 where it did not. */
  pair = Number.NaN;

  /** Takes a coil and a plate in hand. */
  find(coil: Coil, plate: PlateStack, nearest: number, farthest: number): number {
    const { cells, key, lastKey } = this;
    lastKey.set(key);
    const isKept = this.fillKey(coil, plate, nearest, farthest);
    let same = 0;
    while (same < KEY && key[same] === lastKey[same]) same++;
    if (isKept && same === KEY) return FOUND.same;
    this.at = -1;
    this.pair = 0;
    if (!isKept || cells.length === 0) return FOUND.not;
    this.set = this.hash();
    for (let way = 0; way < WAYS; way++) {
      const at = (this.set * WAYS + way) * PLACE;
      let k = 0;
      while (k < KEY && cells[at + k] === key[k]) k++;
      if (k < KEY) continue;
      this.at = at + KEY;
      this.pair = cells[this.at + NUMBER]!;
      return FOUND.known;
    }
    return FOUND.not;
  }

  get freeInductance(): number {
    return this.cells[this.at + FREE]!;
  }

  get field(): number {
    return this.cells[this.at + FIELD]!;
  }

  /** Writes what the coupling is at the standoff. */
  readPoint(out: CouplingPoint): void {
    const { cells, at } = this;
    out.inductanceRe = cells[at + POINT]!;
    out.inductanceIm = cells[at + POINT + 1]!;
    out.slopeRe = cells[at + POINT + 2]!;
    out.slopeIm = cells[at + POINT + 3]!;
    out.curvatureRe = cells[at + POINT + 4]!;
    out.jerkRe = cells[at + POINT + 5]!;
  }

  /** Whether the coil and plate in hand are such as can be remembered. */
  get isKept(): boolean {
    return !Number.isNaN(this.key[0]!);
  }

  /** NaN where it is not known for these layers and this resistance. */
  unevenness(layers: number, resistance: number): number {
    const { cells, at } = this;
    if (at < 0 || cells[at + UNEVEN] !== layers || cells[at + UNEVEN + 1] !== resistance) return Number.NaN;
    return cells[at + UNEVEN + 2]!;
  }

  /** Remembers the coil and plate last looked for. */
  store(point: CouplingPoint, freeInductance: number, field: number): void {
    const { key } = this;
    if (Number.isNaN(key[0]!)) return;
    // what evaluates few designs needs none
    if (++this.stored < WORTHWHILE) return;
    if (this.cells.length === 0) this.cells = new Float64Array(SETS * WAYS * PLACE);
    this.set = this.hash();
    const { set } = this;
    const way = this.next[set]!;
    this.next[set] = (way + 1) % WAYS;
    const start = (set * WAYS + way) * PLACE;
    const { cells } = this;
    cells.set(key, start);
    const at = start + KEY;
    this.at = at;
    cells[at + NUMBER] = this.stored;
    cells[at + FREE] = freeInductance;
    cells[at + FIELD] = field;
    cells[at + POINT] = point.inductanceRe;
    cells[at + POINT + 1] = point.inductanceIm;
    cells[at + POINT + 2] = point.slopeRe;
    cells[at + POINT + 3] = point.slopeIm;
    cells[at + POINT + 4] = point.curvatureRe;
    cells[at + POINT + 5] = point.jerkRe;
    cells[at + UNEVEN] = Number.NaN;
  }

  storeUnevenness(layers: number, resistance: number, unevenness: number): void {
    const { cells, at } = this;
    if (at < 0) return;
    cells[at + UNEVEN] = layers;
    cells[at + UNEVEN + 1] = resistance;
    cells[at + UNEVEN + 2] = unevenness;
  }

  /** False for several windings, for many layers and for iron. */
  private fillKey(coil: Coil, plate: PlateStack, nearest: number, farthest: number): boolean {
    const { key } = this;
    const { layers, layerCount, omega } = plate;
    key[0] = Number.NaN;
    if (coil.count > 1 || layerCount > MOST_LAYERS) return false;
    for (let j = 0; j < MOST_LAYERS; j++) {
      const at = SECTION + 3 * j;
      const isThere = j < layerCount;
      const mu = isThere ? layers[j]!.relativePermeability : 0;
      if (mu > LEAST_MAGNETIC) return false;
      key[at] = isThere ? layers[j]!.resistivity : 0;
      key[at + 1] = mu;
      key[at + 2] = isThere ? layers[j]!.thickness : 0;
    }
    const { innerRadius, outerRadius, height, turns, offset, sense } = coil.windings[0]!.section;
    key[0] = innerRadius;
    key[1] = outerRadius;
    key[2] = height;
    key[3] = turns;
    key[4] = offset;
    key[5] = sense;
    key[KEY - 3] = omega;
    key[KEY - 2] = nearest;
    key[KEY - 1] = farthest;
    return true;
  }

  /** The set of the key: FNV-1a over its words (G. Fowler, L. C. Noll, K.-P. Vo). */
  private hash(): number {
    const { words } = this;
    let hash = 0;
    for (let w = 0; w < words.length; w++) hash = Math.imul(hash ^ words[w]!, 0x01000193);
    return ((hash ^ (hash >>> 15)) >>> 3) & (SETS - 1);
  }
}

/** The coil and plate in hand are those before, known from earlier, or neither. */
export const FOUND = Object.freeze({ not: 0, same: 1, known: 2 });

const MOST_LAYERS = 2;
/** Whatever reflects at every k is left out. */
const LEAST_MAGNETIC = 1;
const SECTION = 6;
const KEY = SECTION + 3 * MOST_LAYERS + 3;
/** Places of the values behind the key. */
const FREE = 0;
const FIELD = 1;
const POINT = 2;
const UNEVEN = 8;
const NUMBER = UNEVEN + 3;
const PLACE = KEY + NUMBER + 1;
/** 16,384 coils over plates, 3.5 MB. */
const SETS = 4096;
const WAYS = 4;
const WORTHWHILE = 256;
