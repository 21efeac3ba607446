import { describe, expect, it } from 'vitest';
import { evaluateRig, FOYER, SOCKET } from '../support/design.ts';

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
