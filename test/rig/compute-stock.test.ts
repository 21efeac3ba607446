import { describe, expect, it } from 'vitest';
import { INPUTS, STOCK_SLOT } from '../../src/model/inputs.ts';
import { evaluateRig, FOYER } from '../support/design.ts';

/** The foyer table with a stock file that prices nothing yet. */
const STOCKED = {
  ...FOYER,
  'stock.wire_waste': 0,
  'stock.fuse_price': 0,
  'stock.capacitor_price': 0,
  'stock.transformer_price': 0,
  'stock.extras_price': 0,
};

const OBLONG = {
  'plate.radius': Number.NaN,
  'plate.sides.0': 0.6,
  'plate.sides.1': 0.5,
};

/** Slots that begin a list are named after the list. */
const FIRST_OF: Record<string, string> = {
  wire: 'stock.reel',
  windingWire: 'stock.windings.0.reel',
  layerPrices: 'stock.layers.1.price_kg',
};

describe('STOCK_SLOT', () => {
  it('holds every slot under the name of its path', () => {
    for (const [name, slot] of Object.entries(STOCK_SLOT)) {
      const path = name.replace(/[A-Z0-9]/g, (letter) =>
        /\d/.test(letter) ? letter : `_${letter.toLowerCase()}`,
      );
      expect(INPUTS[slot]!.path).toBe(FIRST_OF[name] ?? `stock.${path}`);
    }
    expect(new Set(Object.values(STOCK_SLOT)).size).toBe(Object.keys(STOCK_SLOT).length);
  });
});

describe('what a design takes out of the store', () => {
  it('is an oblong plate by its own two sides', () => {
    const byArea = evaluateRig({ ...STOCKED, ...OBLONG, 'stock.plate_price_m2': 100 });
    expect(byArea.plate_cost).toBeCloseTo(100 * 0.6 * 0.5, 10);
    const sheet = evaluateRig({
      ...STOCKED,
      ...OBLONG,
      'stock.sheet_price': 40,
      'stock.sheet_width': 0.8,
      'stock.sheet_length': 0.6,
    });
    expect(sheet.plate_cost).toBe(40);
    expect(sheet.stock_use).toBeCloseTo(Math.max(0.6 / 0.8, 0.5 / 0.6), 10);
  });

  it("is plate by its own layer's thickness and density", () => {
    const byMass = evaluateRig({ ...STOCKED, ...OBLONG, 'stock.plate_price_kg': 8 });
    expect(byMass.plate_cost).toBeCloseTo(8 * 0.6 * 0.5 * 0.012 * 2710, 8);
  });
});
