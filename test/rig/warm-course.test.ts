import { describe, expect, it } from 'vitest';
import { ALL_ON_REQUEST, Q } from '../../src/model/quantities.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { WarmCourse, type WarmMoment } from '../../src/rig/warm-course.ts';
import { type Design, evaluateRig, FOYER, SOCKET, slotsOf } from '../support/design.ts';

const LEFT_ALONE = [Q.height_after_on_time, Q.lands_after];
const CYCLE = [Q.coil_peak, Q.plate_peak, Q.height_least];
const { 'drive.current': _current, ...TABLE } = { ...FOYER, ...SOCKET };

describe('a drive that is left alone', () => {
  it('holds its height at a held current, and never lands', () => {
    const rig = evaluateRig({ ...TABLE, 'drive.current': 12 }, LEFT_ALONE);
    expect(rig.height_after_on_time).toBe(rig.height);
    expect(rig.lands_after).toBe(Number.POSITIVE_INFINITY);
  });

  it('sinks at a held voltage to where it floats with a winding as warm', () => {
    const cold: Design = { ...TABLE, 'drive.voltage': 80, 'duty.on': 300, 'duty.off': 0 };
    const rig = evaluateRig(cold, LEFT_ALONE);
    expect(rig.height_after_on_time).toBeGreaterThan(0);
    expect(rig.height_after_on_time).toBeLessThan(rig.height - 9e-4);
    const { means, moments } = follow(cold, 300);
    const warm = evaluateRig({ ...cold, 'coil.at_temperature': means.at(-1)! });
    // the proximity share, a thousandth of the resistance, is taken at the cold coil's gap
    expect(Math.abs(rig.height_after_on_time - warm.height)).toBeLessThan(2e-5);
    expect(moments.at(-1)!.current / warm.current).toBeCloseTo(1, 3);
  });

  it('falls at a held 45 V as the contract computes: 18.7 mm cold, 6.4 mm at 155 degC', () => {
    // source: the contract's section on heat in time, computed; its rig is not given, this one of ours floats as high when cold
    const rig: Design = {
      ...TABLE,
      'drive.voltage': 45,
      'coil.wire': 1.8e-3,
      'coil.turns': 240,
      'coil.layers': 4,
      'coil.extra_mass': 0.161,
      'plate.layers.0.thickness': 6e-3,
      'supply.series_resistance': 0,
    };
    const cold = evaluateRig({ ...rig, 'coil.at_temperature': 293.15 });
    expect(cold.height).toBeCloseTo(18.7e-3, 4);
    const warm = evaluateRig({ ...rig, 'coil.at_temperature': 428.15 });
    expect(Math.abs(warm.height / 6.4e-3 - 1)).toBeLessThan(0.03);
  });

  it('lands where the voltage is only just enough for the cold coil', () => {
    const rig = evaluateRig({ ...TABLE, 'drive.voltage': 54 }, LEFT_ALONE);
    expect(rig.status).toBe('lifts');
    expect(rig.lands_after).toBeGreaterThan(10);
    expect(rig.lands_after).toBeLessThan(1800);
    const { moments } = follow({ ...TABLE, 'drive.voltage': 54 }, 2 * rig.lands_after, 5);
    const first = moments.find(({ down }) => down)!.time;
    expect(Math.abs(first - rig.lands_after)).toBeLessThan(6);
  });
});

describe('a duty cycle', () => {
  const cycled: Design = {
    ...TABLE,
    'drive.voltage': 96,
    'duty.on': 300,
    'duty.off': 1500,
    'plate.radius': 0.2,
  };

  it('is what hundreds of cycles one after the other come to', () => {
    const rig = evaluateRig(cycled, CYCLE);
    const laws = createLaws(1, 0, []);
    laws.evaluate(slotsOf(cycled));
    const point = laws.operatingPoint!;
    const course = new WarmCourse();
    course.driven.prepare(point);
    const { driven } = course;
    const { heat } = driven.bodies;
    const y = new Float64Array(5).fill(295.15);
    const rate = y.slice();
    const decay = y.slice();
    let peak = 0;
    let plate = 0;
    for (let n = 0; n < 40; n++) {
      peak = 0;
      plate = 0;
      for (const [length, on] of [
        [300, true],
        [1500, false],
      ] as const) {
        heat.powered = on;
        if (!on) driven.rest();
        for (let t = 0; t < length; t += 2.5) {
          if (on) driven.drive(y);
          heat.rates(y, rate, decay);
          if (on) peak = Math.max(peak, heat.windings[0]!.hottest);
          plate = Math.max(plate, y[1]!);
          for (let i = 0; i < 2; i++) y[i] = y[i]! + 2.5 * rate[i]!;
        }
      }
    }
    // steps of 2.5 s of first order
    expect(Math.abs(rig.coil_peak - peak)).toBeLessThan(1);
    expect(Math.abs(rig.plate_peak - plate)).toBeLessThan(1);
  });

  it('lies between one cold start and being on for good, and without a pause is the latter', () => {
    const rig = evaluateRig(cycled, CYCLE);
    const { moments } = follow(cycled, 300);
    expect(rig.coil_peak).toBeGreaterThan(moments.at(-1)!.hottest);
    expect(rig.coil_peak).toBeLessThan(rig.coil_hot_spot);
    expect(rig.height_least).toBeLessThan(moments.at(-1)!.height);
    const always = evaluateRig({ ...TABLE, 'drive.current': 6, 'duty.on': 300, 'duty.off': 0 }, CYCLE);
    expect(Math.abs(always.coil_peak - always.coil_hot_spot)).toBeLessThan(0.5);
  });

  it('has no answer where one pulse runs away, and none without a cycle', () => {
    expect(evaluateRig({ ...cycled, 'drive.voltage': 400, 'duty.on': 3000 }, CYCLE).coil_peak).toBeNaN();
    expect(evaluateRig({ ...TABLE, 'drive.voltage': 96 }, CYCLE).coil_peak).toBeNaN();
  });

  it('depends on the design alone', () => {
    const laws = createLaws(
      1,
      0,
      ALL_ON_REQUEST.filter((q) => CYCLE.includes(q as never)),
    );
    laws.evaluate(slotsOf({ ...cycled, 'drive.voltage': 120 }));
    laws.evaluate(slotsOf(cycled));
    expect(laws.results[Q.coil_peak]).toBe(evaluateRig(cycled, CYCLE).coil_peak);
  });
});

function follow(design: Design, seconds: number, longest = seconds) {
  const laws = createLaws(1, 0, []);
  laws.evaluate(slotsOf(design));
  const moments: WarmMoment[] = [];
  new WarmCourse().follow(laws.operatingPoint!, seconds, longest, [], (moment) => {
    moments.push({ ...moment });
    return false;
  });
  return { moments, means: moments.map(({ mean }) => mean) };
}

describe('a drive that is left alone, at its first moment', () => {
  it.each([50, 96, 130, 152, 180, 230, 260])('is what the rig does cold, at %d V', (volts) => {
    // at more volts the resistance that a height belongs to is the steeper
    const cold: Design = { ...TABLE, 'drive.voltage': volts, 'coil.at_temperature': 295.15 };
    const rig = evaluateRig(cold);
    const [first] = follow(cold, 1).moments;
    expect(first!.down).toBe(rig.status !== 'lifts');
    expect(Math.abs(first!.height - rig.height)).toBeLessThanOrEqual(1e-4 * rig.gap);
    expect(Math.abs(first!.current / rig.current - 1)).toBeLessThan(1e-4);
  });
});
