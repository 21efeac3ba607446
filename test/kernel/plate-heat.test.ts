import { describe, expect, it } from 'vitest';
import { discHeatCapacity, type PlateBody, PlateHeat, SIXTY_CELSIUS } from '../../src/kernel/plate-heat.ts';

/** The plate of the contract's rig: aluminium, 350 mm radius, 12 mm. */
const BODY: PlateBody = {
  radius: 0.35,
  innerRadius: 0,
  thickness: 0.012,
  coilFaceUp: true,
  farFaceOpen: false,
  emissivity: 0.09,
  surroundings: 295.15,
  heatCapacity: 2700 * 900 * 0.012 * Math.PI * 0.35 ** 2,
  loss: 119,
};

function plate(change: Partial<PlateBody> = {}): PlateHeat {
  const heat = new PlateHeat();
  heat.prepare({ ...BODY, ...change });
  return heat;
}

describe('PlateHeat', () => {
  it('balances its loss at the steady temperature, which is the room without a loss', () => {
    const heat = plate();
    expect(heat.shed(heat.steadyTemperature()) / 119).toBeCloseTo(1, 7);
    expect(plate({ loss: 0 }).steadyTemperature()).toBe(295.15);
  });

  it('has no steady temperature when the loss outruns the cooling', () => {
    expect(plate({ loss: 1e5 }).steadyTemperature()).toBeNaN();
  });

  it('sheds 60 W from a black half metre disc at 60 degC in 20 degC by radiation alone', () => {
    // 6.9935 W/(m2 K), black-body coefficient (recomputed), on pi/16 m2 and 40 K; convection is the same for any emissivity
    const disc = { radius: 0.25, thickness: 1e-6, surroundings: 293.15 };
    const black = plate({ ...disc, emissivity: 1 }).shed(333.15);
    const bright = plate({ ...disc, emissivity: 0 }).shed(333.15);
    // the rim is 8e-6 of the area
    expect((black - bright) / (6.9935 * (Math.PI / 16) * 40)).toBeCloseTo(1, 4);
  });

  it('cools better face up than face down, and best with both faces open', () => {
    const up = plate().shed(340);
    const down = plate({ coilFaceUp: false }).shed(340);
    expect(up).toBeGreaterThan(down);
    // the rim is counted twice in the sum
    const both = plate({ farFaceOpen: true }).shed(340);
    expect(both).toBeGreaterThan(up);
    expect(both).toBeLessThan(up + down);
  });

  it('takes a time to 60 degC that lies between the adiabatic one and that at the least net power', () => {
    const heat = plate({ loss: 400 });
    const time = heat.timeTo(SIXTY_CELSIUS);
    const stored = BODY.heatCapacity * (SIXTY_CELSIUS - 295.15);
    expect(time).toBeGreaterThan(stored / 400);
    expect(time).toBeLessThan(stored / (400 - heat.shed(SIXTY_CELSIUS)));
    expect(plate({ loss: 5 }).timeTo(SIXTY_CELSIUS)).toBe(Number.POSITIVE_INFINITY);
    expect(plate({ surroundings: 340 }).timeTo(SIXTY_CELSIUS)).toBe(0);
  });
});

describe('discHeatCapacity', () => {
  it('adds the layers', () => {
    const layers = [
      { density: 2700, specificHeat: 900, thickness: 0.004 },
      { density: 8000, specificHeat: 500, thickness: 0.0005 },
    ];
    expect(discHeatCapacity(layers, 2, 0.1, 0)).toBeCloseTo((2700 * 900 * 0.004 + 2000) * Math.PI * 0.01, 9);
    expect(discHeatCapacity(layers, 1, 0.1, 0)).toBeCloseTo(9720 * Math.PI * 0.01, 9);
    // a hole of half the radius takes a quarter
    expect(discHeatCapacity(layers, 1, 0.1, 0.05)).toBeCloseTo(0.75 * 9720 * Math.PI * 0.01, 9);
  });
});
