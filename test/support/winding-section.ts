import type { WindingBody } from '../../src/kernel/coil-heat.ts';
import {
  createStillAir,
  freeFaceCoefficient,
  stillAir,
  trappedFaceCoefficient,
  trappedShape,
  verticalCoefficient,
} from '../../src/kernel/convection.ts';
import { createGap, gapExchange, prepareGap } from '../../src/kernel/gap-exchange.ts';
import { boreRadiatingArea, STEFAN_BOLTZMANN } from '../../src/kernel/radiation.ts';

/**
 * Conduction over a winding's section, resolved: rings of rectangular section (finite volumes in r and z), a source in each
 * that follows its own temperature, each face cooled at every place by its own temperature. The coefficients are those of the
 * face's mean temperature, as the correlations are meant. Explicit steps in time, to a time or until nothing changes.
 */
export interface ResolvedSection {
  readonly time: number;
  readonly mean: number;
  readonly hottest: number;
  /** Mean temperature of the far and of the plate-side face. */
  readonly far: number;
  readonly near: number;
}

export interface SectionCase {
  readonly body: WindingBody;
  readonly plate: number;
  /** False: the plate-side face gives off nothing. */
  readonly nearOpen?: boolean;
  /** False: the cylinders give off nothing. */
  readonly sidesOpen?: boolean;
}

const COLUMNS = 24;
const ROWS = 16;

/**
 * @param until seconds; Infinity: until it is steady
 * @param limit K: ends when the hottest place gets there
 */
export function resolveSection(
  { body, plate, nearOpen = true, sidesOpen = true }: SectionCase,
  until: number,
  limit = 1500,
  columns = COLUMNS,
  rows = ROWS,
): ResolvedSection {
  const {
    innerRadius: r1,
    outerRadius: r2,
    height: h,
    conductivity: k,
    surroundings: room,
    emissivity,
  } = body;
  const dr = (r2 - r1) / columns;
  const dz = h / rows;
  const volume = Math.PI * (r2 * r2 - r1 * r1) * h;
  const capacity = body.heatCapacity / volume;
  const step = (0.2 * capacity) / (k / (dr * dr) + k / (dz * dz) + 20 / dz);
  const length = (r2 - r1) / 2;
  const air = createStillAir();
  const gap = createGap();
  prepareGap(body.filling, body, gap);
  const trapped = trappedShape(length);
  const exchange = {
    toPlate: 0,
    toRoom: 0,
    plateSlope: 0,
    plateFall: 0,
    roomSlope: 0,
    plateOpen: 0,
    plateSees: 0,
  };
  let T = new Float64Array(columns * rows).fill(room);
  const at = (i: number, j: number) => T[j * columns + i]!;
  const radius = (i: number) => r1 + (i + 0.5) * dr;
  const ring = (i: number) => 2 * Math.PI * radius(i) * dr;
  const black = (one: number, other: number) =>
    STEFAN_BOLTZMANN * (one + other) * (one * one + other * other);
  const faceMean = (j: number, inward: number) => {
    let sum = 0;
    let area = 0;
    for (let i = 0; i < columns; i++) {
      const here = at(i, j) + 0.5 * (at(i, j) - at(i, j + inward));
      sum += ring(i) * here;
      area += ring(i);
    }
    return sum / area;
  };
  let time = 0;
  let mean = room;
  let hottest = room;
  for (;;) {
    // j = 0 at the plate
    const near = faceMean(0, 1);
    const far = faceMean(rows - 1, -1);
    if (time >= until || hottest >= limit) return { time, mean, hottest, far, near };
    stillAir(far, room, air);
    const farH =
      (body.farFaceUp === far >= room
        ? freeFaceCoefficient(air, length)
        : trappedFaceCoefficient(air, trapped)) +
      emissivity * black(far, room);
    stillAir(near, room, air);
    const open =
      body.farFaceUp === near >= room
        ? trappedFaceCoefficient(air, trapped)
        : freeFaceCoefficient(air, length);
    gapExchange(gap, { face: near, plate, room, open, openSlope: 1.2 * open }, exchange);
    let inner = 0;
    let outer = 0;
    for (let j = 0; j < rows; j++) {
      inner += at(0, j) / rows;
      outer += at(columns - 1, j) / rows;
    }
    stillAir(inner, room, air);
    const innerH =
      verticalCoefficient(air, h) +
      (boreRadiatingArea(r1, h, emissivity) / (2 * Math.PI * r1 * h)) * black(inner, room);
    stillAir(outer, room, air);
    const outerH = verticalCoefficient(air, h) + emissivity * black(outer, room);
    const next = new Float64Array(T.length);
    // a face half a cell away stands in series with its coefficient
    const series = (coefficient: number, d: number) => 1 / (1 / coefficient + d / (2 * k));
    let sum = 0;
    let change = 0;
    hottest = 0;
    for (let j = 0; j < rows; j++) {
      for (let i = 0; i < columns; i++) {
        const here = at(i, j);
        const area = ring(i);
        const ratio = Math.max(0.1, 1 + body.temperatureCoefficient * (here - 293.15));
        let heat = ((body.dcLoss * ratio + body.acLoss / ratio) / volume) * area * dz;
        if (j > 0) heat += (k * area * (at(i, j - 1) - here)) / dz;
        else if (nearOpen) {
          const { toPlate, toRoom } = exchange;
          const both = toPlate + toRoom;
          const sink = (toPlate * plate + toRoom * room) / both;
          heat -= series(both, dz) * area * (here - sink);
        }
        if (j < rows - 1) heat += (k * area * (at(i, j + 1) - here)) / dz;
        else heat -= series(farH, dz) * area * (here - room);
        const left = 2 * Math.PI * (r1 + i * dr) * dz;
        const right = 2 * Math.PI * (r1 + (i + 1) * dr) * dz;
        if (i > 0) heat += (k * left * (at(i - 1, j) - here)) / dr;
        else if (sidesOpen) heat -= series(innerH, dr) * left * (here - room);
        if (i < columns - 1) heat += (k * right * (at(i + 1, j) - here)) / dr;
        else if (sidesOpen) heat -= series(outerH, dr) * right * (here - room);
        const rise = (heat * step) / (capacity * area * dz);
        const value = here + rise;
        next[j * columns + i] = value;
        sum += (value * area * dz) / volume;
        if (value > hottest) hottest = value;
        if (Math.abs(rise) > change) change = Math.abs(rise);
      }
    }
    T = next;
    mean = sum;
    time += step;
    if (until === Number.POSITIVE_INFINITY && change / step < 2e-5) until = time;
  }
}
