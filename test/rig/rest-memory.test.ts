import { describe, expect, it, vi } from 'vitest';
import { WindingSpectrum } from '../../src/kernel/winding-spectrum.ts';
import { SLOT } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';
import { STATUS } from '../../src/model/status.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { FOUND, RestMemory } from '../../src/rig/rest-memory.ts';
import { FOYER, SOCKET, slotsOf } from '../support/design.ts';
import { coilOf } from '../support/wide-plate.ts';

/** Coils over plates, and drives of each. */
const COILS = 300;

/** The drive changes slowest; voltages and currents, iron and a second layer among them. */
function design(sweep: number, coil: number): Float64Array {
  const slots = slotsOf({
    ...FOYER,
    ...SOCKET,
    'coil.turns': 300 + (coil % 60) * 4,
    'plate.layers.0.thickness': (1 + Math.floor(coil / 60)) * 2e-3,
    'drive.current': [9, 12, 14, 10][sweep]!,
  });
  if (coil % 7 === 0) {
    slots[SLOT.driveCurrent] = Number.NaN;
    slots[SLOT.driveVoltage] = [80, 130, 150, 100][sweep]!;
  }
  // here and there the same coil over iron or a disc, or higher
  if (coil % 11 === 0) slots[SLOT.plateEdge] = sweep % 2;
  if (coil % 13 === 0) slots[SLOT.standoff] = 2e-3 + 1e-3 * (sweep % 2);
  return slots;
}

describe('a coil over a plate that was there before', () => {
  it('has the same row, to the last bit, as one that never was', () => {
    const laws = createLaws(1);
    const statuses = new Set<number>();
    for (let sweep = 0; sweep < 4; sweep++) {
      for (let coil = 0; coil < COILS; coil++) {
        const slots = design(sweep, coil);
        laws.evaluate(slots);
        statuses.add(laws.status);
        // the first sweeps fill the memory
        if (sweep < 2 || coil % 3 !== 0) continue;
        const fresh = createLaws(1);
        fresh.evaluate(slots);
        expect([laws.status, laws.reason]).toEqual([fresh.status, fresh.reason]);
        expect([...laws.results]).toEqual([...fresh.results]);
      }
    }
    expect(statuses).toEqual(new Set([STATUS.lifts, STATUS.rests]));
  });

  it('needs no field where it rests', () => {
    const laws = createLaws(1);
    const filled = vi.spyOn(WindingSpectrum.prototype, 'fill');
    const sweep = (current: number) => {
      filled.mockClear();
      for (let coil = 0; coil < 600; coil++) {
        const slots = slotsOf({ ...FOYER, 'coil.turns': 200 + coil, 'drive.current': current });
        laws.evaluate(slots);
        expect(laws.status).toBe(STATUS.rests);
      }
      return filled.mock.calls.length;
    };
    // each coil fills once; the first 255 are not remembered
    expect(sweep(3)).toBe(600);
    expect(sweep(4)).toBeLessThan(300);
    expect(sweep(5)).toBe(0);
    expect(laws.results[Q.lift_force]).toBeGreaterThan(0);
    filled.mockRestore();
  });

  it('keeps what it has where a grid goes through more than there is room for', () => {
    const memory = new RestMemory(() => {});
    const pairs = MOST * 1.5;
    memory.expect(pairs);
    sweep(memory, pairs);
    expect(sweep(memory, pairs)).toBe(MOST);
    expect(sweep(memory, pairs)).toBe(MOST);
  });

  it('has room for as many as are expected', () => {
    const memory = new RestMemory(() => {});
    memory.expect(ROOM * 2);
    sweep(memory, ROOM * 2);
    // but for those before it was worthwhile
    expect(sweep(memory, ROOM * 2)).toBe(ROOM * 2 - 255);
    expect(sweep(memory, ROOM * 2)).toBe(ROOM * 2);
  });

  it('begins anew where what it keeps no longer serves', () => {
    const forgot = vi.fn();
    const memory = new RestMemory(forgot);
    // a few come back, so that it goes on looking for all
    sweep(memory, 500);
    expect(sweep(memory, 500)).toBe(245);
    sweep(memory, ROOM + 4000, 500);
    expect(forgot).toHaveBeenCalledTimes(1);
    // the last ones are those that it knows
    expect(sweep(memory, ROOM + 4000, ROOM + 3000)).toBe(1000);
    expect(sweep(memory, ROOM)).toBe(0);
  });

  it('looks for few where nothing came back, until one of them does', () => {
    const memory = new RestMemory(() => {});
    sweep(memory, 2 * ROOM);
    const later = () => sweep(memory, 3 * ROOM, 2 * ROOM);
    // one in eight of them all would be 2048
    expect(later()).toBe(0);
    const known = later();
    expect(known).toBeGreaterThan(1800);
    expect(known).toBeLessThan(2300);
    // now it looks for all again, and has room for most
    expect(later()).toBeGreaterThan(0.8 * ROOM);
  });

  it('goes on looking for all where somebody knows that they come back', () => {
    const memory = new RestMemory(() => {});
    memory.expect(ROOM);
    // the first 255 were not worthwhile; four times its room found none
    sweep(memory, 5 * ROOM + 255);
    const later = () => sweep(memory, 7 * ROOM, 6 * ROOM);
    expect(later()).toBe(0);
    expect(later()).toBe(ROOM);
  });

  it('keeps what serves now and then where nobody knows what comes back', () => {
    const forgot = vi.fn();
    const memory = new RestMemory(forgot);
    sweep(memory, ROOM);
    for (let i = 0; i < 10; i++) {
      sweep(memory, ROOM * (2 + i) + 1000, ROOM * (2 + i));
      expect(sweep(memory, 1300, 300)).toBe(1000);
    }
    expect(forgot).not.toHaveBeenCalled();
  });
});

/** Coils over plates where nobody says how many come back. */
const ROOM = 16_384;
/** The most that are ever remembered. */
const MOST = 131_072;

/** How many of coils over plates were known; the others are remembered. */
function sweep(memory: RestMemory, to: number, from = 0): number {
  let known = 0;
  for (let i = Math.round(from); i < to; i++) {
    const section = {
      innerRadius: 0.04,
      outerRadius: 0.1,
      height: 0.02,
      turns: 1 + (i >> 6),
      offset: 0,
      sense: 1 as const,
    };
    const layer = { resistivity: 3e-8, relativePermeability: 1, thickness: 1e-3 + (i & 63) * 1e-4 };
    const found = memory.find(coilOf([section]), { layers: [layer], layerCount: 1, omega: 314 }, 2e-3, 0.25);
    if (found === FOUND.not) memory.store(POINT, 1, i);
    else if (memory.field !== i) throw new Error('the values of another');
    else known++;
  }
  return known;
}

const POINT = { inductanceRe: -1, inductanceIm: -1, slopeRe: 1, slopeIm: 1, curvatureRe: -1, jerkRe: 1 };
