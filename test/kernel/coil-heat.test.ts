import { describe, expect, it } from 'vitest';
import { HOTTEST, type WindingBody, WindingHeat } from '../../src/kernel/coil-heat.ts';
import { createStillAir, stillAir, verticalCoefficient } from '../../src/kernel/convection.ts';
import { coolDown } from '../support/heat-by-steps/rig-by-steps.ts';
import { resolveSection } from '../support/winding-section.ts';

const ROOM = 295.15;

/** About the rig of the contract's section 8 (aluminium, 2.0 mm wire). */
const BODY: WindingBody = {
  innerRadius: 0.05,
  outerRadius: 0.166,
  height: 0.017,
  farFaceUp: true,
  conductivity: 0.5,
  filling: { sheet: 0, sheetConductivity: 1, air: 0.022, overlap: 1 },
  emissivity: 0.9,
  plateEmissivity: 0.1,
  surroundings: ROOM,
  heatCapacity: 2500,
  dcLoss: 150,
  acLoss: 2,
  temperatureCoefficient: 0.00403,
};

function withAir(air: number): Partial<WindingBody> {
  return { filling: { sheet: 0, sheetConductivity: 1, air, overlap: 1 } };
}

function heat(change: Partial<WindingBody> = {}): WindingHeat {
  const winding = new WindingHeat();
  winding.prepare({ ...BODY, ...change });
  return winding;
}

describe('WindingHeat.shed', () => {
  it('is nothing at the temperature of the surroundings and rises faster than the excess', () => {
    const winding = heat({ dcLoss: 0, acLoss: 0 });
    expect(winding.shed(ROOM, ROOM)).toBe(0);
    expect(winding.shed(395.15, ROOM)).toBeGreaterThan(2 * winding.shed(345.15, ROOM));
  });

  it('adds up from its faces: a tall thin tube in black varnish against convection and radiation by hand', () => {
    const T = 353.15;
    const Ta = 293.15;
    const [r1, r2, h] = [0.099, 0.1, 0.5];
    const winding = heat({
      innerRadius: r1,
      outerRadius: r2,
      height: h,
      conductivity: 1000,
      emissivity: 1,
      surroundings: Ta,
      dcLoss: 0,
      ...withAir(0.5),
    });
    const air = createStillAir();
    stillAir(T, Ta, air);
    const wall = verticalCoefficient(air, h) * 2 * Math.PI * (r1 + r2) * h * (T - Ta);
    // 7.7199 W/(m2 K): black-body coefficient at 80 degC in 20 degC (recomputed); the bore by its mouths, 1 - F12
    const ratio = (h / r1) ** 2;
    const bore = 2 * Math.PI * r1 ** 2 * (1 - (ratio + 2 - Math.sqrt((ratio + 2) ** 2 - 4)) / 2);
    const radiant = 7.7199 * (2 * Math.PI * r2 * h + bore) * (T - Ta);
    // both rims of 1 mm, 0.4 % of the area, are left out by hand
    const ideal = winding.shed(T, Ta) / (wall + radiant);
    expect(ideal).toBeGreaterThan(1);
    expect(ideal).toBeLessThan(1.02);
  });

  it('feels a hot plate, the more the nearer it is', () => {
    const drop = (air: number) => heat(withAir(air)).shed(350, ROOM) - heat(withAir(air)).shed(350, 400);
    expect(drop(0.002)).toBeGreaterThan(2 * drop(0.02));
    expect(drop(0.02)).toBeGreaterThan(0);
  });

  it('has no step at any gap: a sweep in steps of a hundredth changes it by less than a hundredth', () => {
    let before = Number.NaN;
    for (let air = 0.5e-3; air < 60e-3; air *= 1.01) {
      const shed = heat(withAir(air)).shed(370, 330);
      if (!Number.isNaN(before)) expect(Math.abs(shed / before - 1)).toBeLessThan(0.01);
      before = shed;
    }
  });

  it('cools evenly at first where a cold plate takes heat from a winding at the temperature of the room', () => {
    const winding = heat({ dcLoss: 0.1, acLoss: 0, ...withAir(0.0018) });
    winding.evaluate(ROOM, 60);
    expect(winding.toPlate).toBeGreaterThan(0.1);
    expect(winding.hottest).toBeLessThan(ROOM + 2);
  });

  it('has none either where a coil lifts off its sheet', () => {
    const on = (air: number) =>
      heat({ filling: { sheet: 2e-3, sheetConductivity: 0.2, air, overlap: 1 } }).shed(370, 330);
    // 0.1 um of air adds 4e-4 of the sheet's resistance
    expect(Math.abs(on(1e-7) / on(0) - 1)).toBeLessThan(1e-3);
  });
});

describe('WindingHeat against conduction resolved over the section', () => {
  const cases: readonly (readonly [name: string, body: Partial<WindingBody>, plate: number])[] = [
    ['flat, over 22 mm of air', { dcLoss: 150 }, 310],
    ['flat, over 2 mm of air', { dcLoss: 150, ...withAir(2e-3) }, 320],
    ['flat, loose', { dcLoss: 100, conductivity: 0.3 }, 310],
    ['flat, impregnated, driven hard', { dcLoss: 300, conductivity: 1.3, ...withAir(2e-3) }, 330],
    [
      'tall and narrow',
      { innerRadius: 0.05, outerRadius: 0.08, height: 0.052, dcLoss: 60, heatCapacity: 900 },
      320,
    ],
    ['square', { innerRadius: 0.02, outerRadius: 0.07, height: 0.05, dcLoss: 60, heatCapacity: 900 }, 320],
    [
      'on a sheet of plastic',
      { dcLoss: 200, filling: { sheet: 2e-3, sheetConductivity: 0.2, air: 0, overlap: 1 } },
      320,
    ],
  ];

  it.each(cases)('%s: mean rise within 3 %%, hottest within 6 %%', (_name, change, plate) => {
    const body = { ...BODY, ...change };
    const resolved = resolveSection({ body, plate }, Number.POSITIVE_INFINITY);
    const winding = heat(change);
    const steady = winding.steadyTemperature(plate);
    winding.evaluate(steady, plate);
    // what two separate profiles leave out at the corners of a thick section; the mesh itself is good to 0.5 %
    expect(Math.abs((steady - ROOM) / (resolved.mean - ROOM) - 1)).toBeLessThan(0.03);
    expect(Math.abs((winding.hottest - ROOM) / (resolved.hottest - ROOM) - 1)).toBeLessThan(0.06);
  });

  it.each([150, 390, 870])(
    'on-time of a loose winding with %d W at 20 degC: within 5 %%, to the short side',
    (dcLoss) => {
      const change = { dcLoss, conductivity: 0.4, ...withAir(2e-3) };
      const limit = 353.15;
      const resolved = resolveSection({ body: { ...BODY, ...change }, plate: ROOM }, 1e5, limit);
      const winding = heat(change);
      let T = ROOM;
      let time = 0;
      for (; time < 1e5; time += 0.5) {
        winding.evaluate(T, ROOM);
        if (winding.hottest >= limit) break;
        T += (0.5 * (winding.loss(T) - winding.toRoom - winding.toPlate)) / BODY.heatCapacity;
      }
      expect(resolved.time).toBeLessThan(1e5);
      expect(time / resolved.time).toBeLessThan(1.01);
      expect(time / resolved.time).toBeGreaterThan(0.95);
    },
  );
});

/**
 * 440 turns of 2 mm aluminium in 8 layers, loose (k = 0.5), over its plate: values computed beforehand by another program, which let
 * the near face give off nothing below 5 mm of gap and had no plate beside it above.
 */
describe('the winding of the contract', () => {
  const winding440 = { innerRadius: 0.05, outerRadius: 0.1662, height: 0.0169, acLoss: 0 };
  const celsius = (si: number) => si - 273.15;

  it('at rest at 6 A, its near face closed: 123 and 148 degC by resolved conduction; open to the plate, far less', () => {
    const body = { ...BODY, ...winding440, dcLoss: 97, ...withAir(2e-3) };
    const plate = 335.15;
    const closed = resolveSection({ body, plate, nearOpen: false }, Number.POSITIVE_INFINITY, 1500, 12, 8);
    // of a rise of 100 and 126 K; by finite differences of our own
    expect(Math.abs(celsius(closed.mean) - 123)).toBeLessThan(10);
    expect(Math.abs(celsius(closed.hottest) - 148)).toBeLessThan(12);
    const winding = heat(body);
    const steady = winding.steadyTemperature(plate);
    winding.evaluate(steady, plate);
    // what crosses 2 mm of air
    expect(celsius(steady)).toBeLessThan(95);
    expect(celsius(winding.hottest)).toBeLessThan(105);
  });

  it.each([
    ['10 A, k = 0.5', 0.5, 269, 10.35e-3, 254, 305],
    ['12 A, k = 1', 1, 387, 21.86e-3, 317, 367],
  ])('floating at %s: within 10 %% of the rise', (_name, conductivity, dcLoss, air, mean, hottest) => {
    const plate = 350;
    const winding = heat({ ...winding440, conductivity, dcLoss, ...withAir(air) });
    const steady = winding.steadyTemperature(plate);
    winding.evaluate(steady, plate);
    expect(Math.abs((steady - ROOM) / (mean - 22) - 1)).toBeLessThan(0.1);
    expect(Math.abs((winding.hottest - ROOM) / (hottest - 22) - 1)).toBeLessThan(0.1);
  });

  it('settles at 12 A with k = 0.5, as resolved conduction does: the other program’s `never` is not ours', () => {
    const change = { ...winding440, dcLoss: 387, ...withAir(21.86e-3) };
    const plate = 351;
    const resolved = resolveSection(
      { body: { ...BODY, ...change }, plate },
      Number.POSITIVE_INFINITY,
      1500,
      12,
      8,
    );
    expect(resolved.hottest).toBeLessThan(HOTTEST);
    const winding = heat(change);
    const steady = winding.steadyTemperature(plate);
    winding.evaluate(steady, plate);
    expect(Math.abs((steady - ROOM) / (resolved.mean - ROOM) - 1)).toBeLessThan(0.03);
    expect(Math.abs((winding.hottest - ROOM) / (resolved.hottest - ROOM) - 1)).toBeLessThan(0.03);
  });
});

describe('WindingHeat.steadyTemperature', () => {
  it('balances loss and cooling', () => {
    const winding = heat();
    const T = winding.steadyTemperature(ROOM);
    expect(T).toBeGreaterThan(350);
    expect(winding.loss(T) / winding.shed(T, ROOM)).toBeCloseTo(1, 6);
  });

  it('is the temperature of the surroundings without a loss', () => {
    expect(heat({ dcLoss: 0, acLoss: 0 }).steadyTemperature(ROOM)).toBe(ROOM);
  });

  it('has no answer when the loss outruns the cooling, and sooner where the winding conducts badly', () => {
    expect(heat({ dcLoss: 20000 }).steadyTemperature(ROOM)).toBeNaN();
    expect(heat({ dcLoss: 4000, temperatureCoefficient: 0.02 }).steadyTemperature(ROOM)).toBeNaN();
    const hard = { dcLoss: 500, ...withAir(2e-3) };
    expect(heat({ ...hard, conductivity: 1.3 }).steadyTemperature(ROOM)).toBeLessThan(HOTTEST);
    expect(heat({ ...hard, conductivity: 0.08 }).steadyTemperature(ROOM)).toBeNaN();
  });
});

describe('WindingHeat.coolDownTime', () => {
  it('agrees with a finely stepped Runge-Kutta solution', () => {
    const winding = heat();
    const time = winding.coolDownTime(403.15, 305.15);
    winding.powered = false;
    const rate = (T: number) => -winding.shed(T, ROOM) / BODY.heatCapacity;
    const step = 0.25;
    let T = 403.15;
    let stepped = 0;
    for (; T > 305.15; stepped += step) T += step * rate(T + (step / 2) * rate(T));
    // the integral is good to 1e-5; the stepping ends up to a step late
    expect(Math.abs(time / stepped - 1)).toBeLessThan(2e-4);
  });

  it('takes the plate as cold again, without forgetting the current', () => {
    const winding = heat();
    winding.shed(360, 380);
    const before = winding.shed(360, 380);
    expect(winding.coolDownTime(403.15, 305.15)).toBeGreaterThan(0);
    // from the shares of a cold winding on: 1e-3, and what they were after that
    winding.shed(360, 380);
    expect(winding.shed(360, 380) / before).toBeCloseTo(1, 3);
  });

  it('does not remember faces that a hot plate had made: within 0.5 % of fifth-order steps', () => {
    const winding = heat({
      innerRadius: 0.114,
      outerRadius: 0.2056,
      height: 0.0846,
      conductivity: 0.1285,
      heatCapacity: 6031,
      dcLoss: 0.15,
      acLoss: 0,
      ...withAir(0.0191),
    });
    winding.evaluate(ROOM + 25, ROOM + 300);
    winding.evaluate(ROOM + 25, ROOM + 300);
    const found = winding.coolDownTime(ROOM + 25, ROOM + 10);
    expect(Math.abs(found / coolDown(winding.body, ROOM + 25, ROOM, 1e-7) - 1)).toBeLessThan(5e-3);
  });

  it('never gets to the surroundings and has nothing to do below the target', () => {
    expect(heat().coolDownTime(403.15, ROOM)).toBe(Number.POSITIVE_INFINITY);
    expect(heat().coolDownTime(300, 305.15)).toBe(0);
  });
});
