import { describe, expect, it } from 'vitest';
import { type WindingBody, WindingHeat } from '../../src/kernel/coil-heat.ts';
import { HeatTable } from '../../src/kernel/heat-table.ts';
import { discHeatCapacity, PlateHeat } from '../../src/kernel/plate-heat.ts';
import { RigHeat } from '../../src/kernel/rig-heat.ts';
import { COVER, WATER_SPECIFIC_HEAT, wallHeight } from '../../src/kernel/vessel-heat.ts';
import { WarmUp, type WarmUpTimes } from '../../src/kernel/warm-up.ts';

const ROOM = 293.15;

const WINDING: WindingBody = {
  innerRadius: 0.05,
  outerRadius: 0.166,
  height: 0.017,
  farFaceUp: true,
  conductivity: 0.4,
  filling: { sheet: 0, sheetConductivity: 1, air: 0.003, overlap: 1 },
  emissivity: 0.9,
  plateEmissivity: 0.09,
  surroundings: ROOM,
  heatCapacity: 2500,
  dcLoss: 120,
  acLoss: 1,
  temperatureCoefficient: 0.00403,
};

/** Windings over a plate of 350 mm and 12 mm that takes 119 W. */
function rig(changes: readonly Partial<WindingBody>[], loss = 119): RigHeat {
  const windings = changes.map((change) => {
    const winding = new WindingHeat();
    winding.prepare({ ...WINDING, ...change });
    return winding;
  });
  const plate = new PlateHeat();
  const layers = [{ density: 2710, specificHeat: 897, thickness: 0.012 }];
  plate.prepare({
    radius: 0.35,
    innerRadius: 0,
    thickness: 0.012,
    coilFaceUp: true,
    farFaceOpen: false,
    emissivity: 0.09,
    surroundings: ROOM,
    heatCapacity: discHeatCapacity(layers, 1, 0.35, 0),
    loss,
  });
  const heat = new RigHeat(windings, plate);
  heat.prepare(windings.length, ROOM);
  return heat;
}

function stepped(
  heat: RigHeat,
  from: Float64Array,
  step: number,
  done: (y: Float64Array) => boolean,
): number {
  const y = from.slice();
  const rate = y.slice();
  const decay = y.slice();
  let time = 0;
  for (; time < 1e5; time += step) {
    heat.rates(y, rate, decay);
    if (done(y)) return time;
    for (let i = 0; i < y.length; i++) y[i] = y[i]! + step * rate[i]!;
  }
  return time;
}

describe('RigHeat.steady', () => {
  it.each([
    ['one winding', [{}]],
    ['a hard drive', [{ dcLoss: 260 }]],
    [
      'two windings',
      [
        { outerRadius: 0.1, dcLoss: 40 },
        { innerRadius: 0.12, dcLoss: 60 },
      ],
    ],
    ['hardly a loss', [{ dcLoss: 0.01 }]],
    [
      'a winding pressed on the plate',
      [{ filling: { sheet: 1e-4, sheetConductivity: 1, air: 0, overlap: 1 } }],
    ],
  ] as const)('balances every body and stays where it is: %s', (_name, changes) => {
    const heat = rig(changes);
    const y = new Float64Array(changes.length + 1);
    expect(heat.steady(y)).toBe(true);
    const rate = y.slice();
    const decay = y.slice();
    heat.rates(y, rate, decay);
    // 1e-3 K is what is claimed of steady temperatures
    rate.forEach((each, i) => {
      expect(Math.abs(each)).toBeLessThan(1e-3 * decay[i]!);
    });
  });

  it('says so where a winding never settles', () => {
    expect(rig([{ dcLoss: 3000 }]).steady(new Float64Array(2))).toBe(false);
    expect(rig([{}, { dcLoss: 3000 }]).steady(new Float64Array(3))).toBe(false);
  });

  it('warms a plate that makes no heat by its winding, and a winding that makes none by its plate', () => {
    const y = new Float64Array(2);
    rig([{}], 0).steady(y);
    expect(y[1]).toBeGreaterThan(ROOM + 5);
    rig([{ dcLoss: 0, acLoss: 0 }]).steady(y);
    expect(y[0]).toBeGreaterThan(ROOM + 5);
    expect(y[1]).toBeGreaterThan(y[0]!);
  });
});

describe('HeatTable', () => {
  it.each([360, 420, 600])('gives heat flows to 0.5 %% of the largest, windings up to %d K', (top) => {
    const heat = rig([{ dcLoss: 300 }]);
    const winding = heat.windings[0]!;
    const table = new HeatTable(heat);
    table.prepare(ROOM, top, ROOM, 320);
    const plate = (ROOM + 320) / 2;
    const rate = new Float64Array(2);
    const flow = (T: number) => {
      table.rates(Float64Array.of(T, plate), rate, null);
      return winding.loss(T) - rate[0]! * winding.body.heatCapacity;
    };
    const exact = (T: number) => {
      winding.evaluate(T, plate);
      winding.evaluate(T, plate);
      return winding.toRoom + winding.toPlate;
    };
    const most = exact(top);
    for (let T = ROOM + 2; T <= top; T += 3) expect(Math.abs(flow(T) - exact(T)) / most).toBeLessThan(5e-3);
  });
});

describe('WarmUp', () => {
  it.each([150, 300, 900, 3000])('agrees with steps a hundred times finer: %d W', (dcLoss) => {
    const heat = rig([{ dcLoss }]);
    const from = Float64Array.of(ROOM, ROOM);
    const out: WarmUpTimes = { limit: 0, plate: 0, means: new Float64Array(1) };
    new WarmUp(heat).times(
      from,
      {
        limit: 360,
        plateTo: Number.NaN,
        reachesLimit: true,
        reachesPlate: false,
        hottestMean: 360,
        hottestPlate: 310,
      },
      out,
    );
    const fine = stepped(heat, from, out.limit / 4000, () => heat.windings[0]!.hottest >= 360);
    // first-order steps of 1/4000 err by some 2e-4
    expect(Math.abs(out.limit / fine - 1)).toBeLessThan(3e-3);
  });

  it('is nothing where the limit is no hotter than the start', () => {
    const out: WarmUpTimes = { limit: 1, plate: 1, means: new Float64Array(1) };
    new WarmUp(rig([{}])).times(
      Float64Array.of(ROOM, ROOM),
      {
        limit: 290,
        plateTo: 290,
        reachesLimit: true,
        reachesPlate: true,
        hottestMean: 300,
        hottestPlate: 300,
      },
      out,
    );
    expect(out.limit).toBe(0);
    expect(out.plate).toBe(0);
  });
});

describe('a kilogram of water in a pan, from 20 to 95 degC, computed beforehand by another program', () => {
  function pan(loss: number, cover: number | null): number {
    const plate = new PlateHeat();
    const radius = 0.1;
    plate.prepare({
      radius,
      innerRadius: 0,
      thickness: 0.002,
      coilFaceUp: false,
      farFaceOpen: false,
      emissivity: 0.09,
      surroundings: ROOM,
      heatCapacity: 2710 * 897 * 0.002 * Math.PI * radius ** 2,
      loss,
    });
    const wall = cover === null ? 1e-9 : wallHeight(1, radius);
    const vessel = {
      radius: cover === null ? 1e-9 : radius,
      capacity: WATER_SPECIFIC_HEAT,
      wall,
      cover: cover ?? COVER.lid,
    };
    plate.vessel = vessel;
    const heat = new RigHeat([], plate);
    heat.prepare(0, ROOM);
    heat.plateMost = 368.15;
    const y = new Float64Array(1);
    const reaches = heat.steady(y) && y[0]! >= 368.15 - 1e-5;
    const out: WarmUpTimes = { limit: 0, plate: 0, means: new Float64Array(0) };
    new WarmUp(heat).times(
      Float64Array.of(ROOM),
      {
        limit: Number.NaN,
        plateTo: 368.15,
        reachesLimit: false,
        reachesPlate: reaches,
        hottestMean: 0,
        hottestPlate: 368.15,
      },
      out,
    );
    return out.plate;
  }
  const never = Number.POSITIVE_INFINITY;

  it.each([
    ['by its underside alone', null, [5700, 2280, 1116, 554, 220]],
    ['with a lid', COVER.lid, [never, 2962, 1244, 582, 224]],
    ['open', COVER.open, [never, never, never, 746, 242]],
  ] as const)('loses heat %s', (_name, cover, seconds) => {
    const found = [64, 150, 300, 600, 1500].map((loss) => pan(loss, cover));
    found.forEach((time, i) => {
      if (seconds[i] === never) expect(time).toBe(never);
      else expect(Math.abs(time / seconds[i]! - 1)).toBeLessThan(0.1);
    });
  });
});
