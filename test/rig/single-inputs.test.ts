import { describe, expect, it } from 'vitest';
import { FLOATS, LOAD_COVERS, WINDING_KINDS } from '../../src/model/inputs.ts';
import { followWarming } from '../../src/rig/follow-warming.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { prepareMotion } from '../../src/rig/prepare-motion.ts';
import { createBounceSolver } from '../../src/rig/small-motion.ts';
import { evaluateRig, FOYER, SOCKET, slotsOf } from '../support/design.ts';

/** Inputs that a law reads alone: each moves the answer that only it can move. */
describe('the line voltage', () => {
  it('sets the impulse of the mains that insulation must stand, and without it there is no margin', () => {
    const at = (voltage: number) =>
      evaluateRig({ ...FOYER, ...SOCKET, 'standoff.breakdown': 15e6, 'supply.line_voltage': voltage })
        .impulse_margin;
    // category II of IEC 60664-1, table F.1: 2.5 kV for 300 V to earth, 1.5 kV for 150 V (from memory)
    expect(at(120) / at(230)).toBeCloseTo(2.5 / 1.5, 9);
    expect(at(Number.NaN)).toBeNaN();
  });
});

describe('a floating plate', () => {
  it('of endless thickness has no mass, and is impossible', () => {
    const endless = { floats: 1, 'plate.radius': 0.35, 'plate.layers.0.thickness': Number.POSITIVE_INFINITY };
    expect(evaluateRig({ ...FOYER, ...endless }).reason).toBe('outsideRange');
    // the same plate may lie still
    expect(evaluateRig({ ...FOYER, ...endless, floats: 0 }).status).toBe('lifts');
  });
});

describe('impregnation', () => {
  it('carries heat through the winding: its hottest place comes nearer to its mean', () => {
    const rise = (kind: number) => {
      const found = evaluateRig({ ...FOYER, 'coil.winding': kind, 'drive.current': 8 });
      return found.coil_hot_spot - found.coil_temperature;
    };
    expect(rise(WINDING_KINDS.impregnated)).toBeLessThan(0.8 * rise(WINDING_KINDS.loose));
    expect(rise(WINDING_KINDS.impregnated)).toBeGreaterThan(0);
  });
});

describe('the cover of a load', () => {
  const kettle = {
    ...FOYER,
    ...SOCKET,
    floats: FLOATS.nothing,
    'plate.radius': 0.12,
    'plate.load.water': 1,
    'plate.load.from': 293.15,
    'plate.load.to': 333.15,
  };

  it('keeps the heat that open water gives off by evaporating', () => {
    // with hardly any current: what the windings give is left out
    const at = (cover: number) =>
      evaluateRig({ ...kettle, 'drive.current': 1, 'plate.load.cover': cover }).load_power_needed;
    expect(at(LOAD_COVERS.open)).toBeGreaterThan(1.5 * at(LOAD_COVERS.lid));
    expect(at(LOAD_COVERS.lid)).toBeGreaterThan(0);
  });

  it('and the temperature that the load is brought to is an event of its warming', () => {
    const slots = slotsOf({ ...kettle, 'plate.load.cover': LOAD_COVERS.lid, 'drive.current': 16 });
    const { moments, events } = followWarming({ plateLayers: 1, windings: 0 }, slots, 3600)!;
    const warm = events.find(({ what }) => what === 'load is warm')!;
    for (const { time, plate } of moments) expect(plate >= 333.1).toBe(time >= warm.time);
  });
});

describe('a series resistance', () => {
  it('makes a held voltage more like a held current: it changes how a bounce grows', () => {
    const at = (resistance: number) => {
      const laws = createLaws(1);
      laws.evaluate(slotsOf({ ...FOYER, 'supply.series_resistance': resistance }));
      const solve = createBounceSolver();
      const point = laws.operatingPoint!;
      const voltageHeld = solve(point, true).growth;
      return voltageHeld - solve(point, false).growth;
    };
    // at the same point, by what stays: with much in series they are the same
    expect(Math.abs(at(1e4))).toBeLessThan(0.05 * Math.abs(at(0)));
  });
});

describe('the headroom', () => {
  it('is what motion in time has above the coil', () => {
    const request = { drive: null, cutAt: Number.POSITIVE_INFINITY, phase: 0, step: null };
    const slots = slotsOf({ ...FOYER, 'surroundings.headroom': 0.07, 'surroundings.visitor_distance': 1 });
    const prepared = prepareMotion({ plateLayers: 1, windings: 0 }, slots, request);
    expect(prepared).toMatchObject({ headroom: 0.07 });
  });
});
