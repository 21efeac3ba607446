import { describe, expect, it } from 'vitest';
import { GRAVITY } from '../../src/kernel/constants.ts';
import { metalByName } from '../../src/model/metals.ts';
import { CHECKED } from '../../src/rig/geometry.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { evaluateRig, FOYER, slotsOf } from '../support/design.ts';

const plate = 'plate.layers.0';
const omega = 2 * Math.PI * 50;

describe('the foyer table, computed independently (regression anchor: no published source)', () => {
  it('weighs 2.84 kg, is 166 mm in radius and 17 mm high, 299 m of wire, 2.7 ohm, 38 mH', () => {
    const rig = evaluateRig(FOYER);
    expect(rig.coil_mass).toBeCloseTo(2.84, 2);
    expect(rig.coil_outer_radius).toBeCloseTo(0.166, 3);
    expect(rig.winding_height).toBeCloseTo(0.017, 3);
    expect(rig.wire_length).toBeCloseTo(299, 0);
    expect(rig.resistance_cold).toBeCloseTo(2.7, 1);
    expect(rig.inductance_free).toBeCloseTo(0.038, 3);
  });

  it('lifts off at 8.7 A and 50 V', () => {
    const rig = evaluateRig(FOYER);
    expect(rig.liftoff_current).toBeCloseTo(8.7, 1);
    expect(rig.liftoff_voltage).toBeCloseTo(50, 0);
  });

  it.each([
    [10, 8.4, 67],
    [11, 14.3, 82],
    [12, 19.9, 96],
    [13, 25.1, 110],
  ])('%d A float it %d mm high at %d V', (current, height, voltage) => {
    const rig = evaluateRig({ ...FOYER, 'drive.current': current });
    expect(rig.status).toBe('lifts');
    expect(Math.abs(rig.height * 1e3 - height)).toBeLessThan(0.1);
    expect(Math.abs(rig.voltage - voltage)).toBeLessThan(1);
  });

  it.each([
    [6, 18.4],
    [3, 9.4],
  ])('over %d mm of aluminium 12 A float it %d mm high', (thickness, height) => {
    const rig = evaluateRig({ ...FOYER, [`${plate}.thickness`]: thickness / 1e3 });
    // the anchor was computed with another aluminium: 1 % of height
    expect(Math.abs(rig.height * 1e3 - height)).toBeLessThan(0.2);
  });

  it('rests on 1 mm of aluminium, which needs about 18.7 A', () => {
    const rig = evaluateRig({ ...FOYER, [`${plate}.thickness`]: 1e-3 });
    expect([rig.status, rig.reason]).toEqual(['rests', 'weak']);
    expect(Math.abs(rig.liftoff_current - 18.7)).toBeLessThan(0.2);
    expect(rig.height).toBe(0);
    expect(rig.vibration).toBeNaN();
    expect(rig.natural_frequency).toBeNaN();
  });
});

describe('an aluminium pancake of 250 turns AWG 10 over a structural alloy, 60 Hz (common practice, no source)', () => {
  // radii 5 to 18 cm and 2.3e7 S/m are assumed
  const pancake = {
    ...FOYER,
    'coil.wire': 2.588e-3,
    'coil.turns': 250,
    'coil.section.outer_radius': 0.18,
    'coil.section.height': 0.015,
    'coil.extra_mass': 0,
    [`${plate}.metal.resistivity`]: 1 / 2.3e7,
    'supply.frequency': 60,
  };
  const over = (thickness: number, current: number) =>
    evaluateRig({ ...pancake, [`${plate}.thickness`]: thickness, 'drive.current': current });

  it('lifts off between 14 and 16 A over 12.7 mm and rises about 2 cm at 20 A', () => {
    const rig = over(12.7e-3, 20);
    expect(rig.liftoff_current).toBeGreaterThan(14);
    expect(rig.liftoff_current).toBeLessThan(16);
    expect(Math.abs(rig.height - 0.02)).toBeLessThan(0.002);
  });

  it('needs 3 to 6 % more over 6.35 mm', () => {
    const more = over(6.35e-3, 20).liftoff_current / over(12.7e-3, 20).liftoff_current;
    expect(more).toBeGreaterThan(1.03);
    expect(more).toBeLessThan(1.06);
  });

  it('does not lift at 30 A over 1 mm', () => {
    expect(over(1e-3, 30).status).toBe('rests');
  });

  it('pays only about 1 % for half the thickness when the plate is nearly pure aluminium', () => {
    const pure = (thickness: number) =>
      evaluateRig({ ...pancake, [`${plate}.metal.resistivity`]: 2.7e-8, [`${plate}.thickness`]: thickness });
    const more = pure(6.35e-3).liftoff_current / pure(12.7e-3).liftoff_current;
    expect(more).toBeGreaterThan(1.0);
    expect(more).toBeLessThan(1.025);
  });
});

describe('balances', () => {
  it('average lift equals the weight at the operating gap, and lift-off current lifts exactly the weight', () => {
    const rig = evaluateRig(FOYER);
    const weight = rig.coil_mass * GRAVITY;
    const atGap = evaluateRig({ ...FOYER, floats: 2, standoff: rig.gap });
    expect(atGap.lift_force / weight).toBeCloseTo(1, 9);
    const atLiftoff = evaluateRig({ ...FOYER, 'drive.current': rig.liftoff_current });
    expect(atLiftoff.lift_force / weight).toBeCloseTo(1, 12);
    expect(atLiftoff.status).toBe('rests');
    expect(evaluateRig({ ...FOYER, 'drive.current': rig.liftoff_current * 1.0001 }).status).toBe('lifts');
  });

  it('power at the terminals is coil loss plus plate loss', () => {
    const rig = evaluateRig(FOYER);
    expect(rig.power / (rig.coil_loss + rig.plate_loss)).toBeCloseTo(1, 12);
    expect(rig.power / (rig.voltage * rig.current * rig.power_factor)).toBeCloseTo(1, 12);
    expect(
      rig.voltage ** 2 /
        (rig.current ** 2 * ((rig.resistance + rig.plate_resistance) ** 2 + (omega * rig.inductance) ** 2)),
    ).toBeCloseTo(1, 12);
  });

  it('stiffness is the slope of the lift over the gap, bounce and vibration follow from it', () => {
    const rig = evaluateRig(FOYER);
    const lift = (gap: number) => evaluateRig({ ...FOYER, floats: 2, standoff: gap }).lift_force;
    const step = 1e-5;
    const slope = -(lift(rig.gap + step) - lift(rig.gap - step)) / (2 * step);
    expect(rig.stiffness / slope).toBeCloseTo(1, 5);
    expect(rig.natural_frequency).toBeCloseTo(Math.sqrt(slope / rig.coil_mass) / (2 * Math.PI), 4);
    const inertia = rig.coil_mass * (2 * omega) ** 2;
    expect(rig.vibration / (rig.double_frequency_force / (inertia - rig.stiffness))).toBeCloseTo(1, 9);
  });

  it('chatter begins at lift-off over root two or sooner, since the ripple is at least the average', () => {
    const rig = evaluateRig(FOYER);
    expect(rig.chatter_current).toBeLessThan(rig.liftoff_current / Math.SQRT2);
    const peak =
      (rig.chatter_current / 12) ** 2 *
      (rig.lift_force + evaluateRig({ ...FOYER, floats: 2 }).double_frequency_force);
    expect(peak / (rig.coil_mass * GRAVITY)).toBeCloseTo(1, 12);
  });
});

describe('what a design can become', () => {
  it('rests on a steel plate that attracts, with no lift-off current', () => {
    const rig = evaluateRig({
      ...FOYER,
      [`${plate}.metal.resistivity`]: 1.4e-7,
      [`${plate}.metal.relative_permeability`]: 200,
    });
    expect([rig.status, rig.reason]).toEqual(['rests', 'attracted']);
    expect(rig.liftoff_current).toBeNaN();
    expect(rig.lift_force).toBeLessThan(0);
    expect(rig.plate_loss).toBeGreaterThan(0);
  });

  it('is clamped when nothing floats: heats, and has no lift-off', () => {
    const rig = evaluateRig({ ...FOYER, floats: 2 });
    expect(rig.status).toBe('clamped');
    expect(rig.height).toBe(0);
    expect(rig.liftoff_current).toBeNaN();
    expect(rig.plate_loss).toBeGreaterThan(100);
  });

  it('is impossible when the wires do not fit a section fixed by hand', () => {
    const section = { 'coil.section.outer_radius': 0.15, 'coil.section.height': 0.015 };
    expect(evaluateRig({ ...FOYER, ...section }).reason).toBe('noFit');
    expect(evaluateRig({ ...FOYER, ...section, 'coil.turns': 300 }).status).toBe('lifts');
    expect(evaluateRig({ ...FOYER, ...section, 'coil.section.outer_radius': 0.05 }).reason).toBe(
      'sectionInverted',
    );
    expect(evaluateRig({ ...FOYER, 'coil.layers': 441 }).reason).toBe('layersOverTurns');
  });

  it('is impossible, not wrong, outside the checked range', () => {
    expect(evaluateRig({ ...FOYER, standoff: CHECKED.gap.minimum / 2 }).reason).toBe('outsideRange');
    expect(evaluateRig({ ...FOYER, 'supply.frequency': 1e6 }).reason).toBe('outsideRange');
    expect(evaluateRig({ ...FOYER, [`${plate}.metal.relative_permeability`]: 5000 }).reason).toBe(
      'outsideRange',
    );
  });

  it('takes enamel from the grade, and is impossible where no enamel is tabulated', () => {
    const { 'coil.insulation.thickness': _, ...bare } = FOYER;
    const rig = evaluateRig({ ...bare, 'coil.insulation.grade': 2 });
    // 2.000 mm grade 2: 2.112 mm overall (IEC 60317-0-1, quoted at second hand)
    expect(rig.winding_height).toBeCloseTo(8 * 2.112e-3, 12);
    expect(evaluateRig({ ...bare, 'coil.insulation.grade': 2, 'coil.wire': 6e-3 }).reason).toBe('noEnamel');
  });

  it('floats very high when driven very hard, still in balance', () => {
    const rig = evaluateRig({ ...FOYER, 'drive.current': 500 });
    expect(rig.status).toBe('lifts');
    expect(rig.gap).toBeGreaterThan(0.4);
    const there = evaluateRig({ ...FOYER, floats: 2, standoff: rig.gap, 'drive.current': 500 });
    // another node set: quadrature accuracy
    expect(there.lift_force / (rig.coil_mass * GRAVITY)).toBeCloseTo(1, 5);
  });

  it('fails, with a reason, when it would fly out of the checked range of gaps', () => {
    const rig = evaluateRig({ ...FOYER, 'drive.current': 500_000 });
    expect([rig.status, rig.reason]).toEqual(['failed', 'tooHigh']);
    expect(rig.gap).toBeNaN();
  });

  it('does not depend on what was asked before', () => {
    const laws = createLaws(1);
    const designs = [12, 10, 9, 40].flatMap((current) =>
      [12e-3, 1e-3].map((thickness) => ({
        ...FOYER,
        'drive.current': current,
        [`${plate}.thickness`]: thickness,
      })),
    );
    const inTurn = designs.map((design) => {
      laws.evaluate(slotsOf(design));
      return [...laws.results];
    });
    const backwards = designs
      .toReversed()
      .map((design) => {
        laws.evaluate(slotsOf(design));
        return [...laws.results];
      })
      .reverse();
    const fresh = designs.map((design) => {
      const own = createLaws(1);
      own.evaluate(slotsOf(design));
      return [...own.results];
    });
    expect(backwards).toEqual(inTurn);
    expect(fresh).toEqual(inTurn);
  });
});

describe('copper and aluminium (common practice, no source)', () => {
  it('copper conducts about 1.6 times as well and weighs about 3.3 times as much', () => {
    const copper = metalByName('copper')!;
    const aluminium = metalByName('aluminium')!;
    expect(aluminium.resistivity.value / copper.resistivity.value).toBeCloseTo(1.6, 1);
    expect(copper.density.value / aluminium.density.value).toBeCloseTo(3.3, 1);
  });

  it('60 Hz penetrate about 1.1 cm of aluminium', () => {
    expect(evaluateRig({ ...FOYER, 'supply.frequency': 60 }).skin_depth).toBeCloseTo(0.011, 3);
  });
});
