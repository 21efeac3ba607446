import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CloseWires } from '../../src/kernel/close-wires.ts';
import { skinArgument, skinEffect } from '../../src/kernel/skin-effect.ts';

/** A straight bundle: R/Rdc by multipoles of cylinders, and by lone wires in the section's mean-square field. */
interface Bundle {
  readonly layers: number;
  readonly columns: number;
  readonly wire: number;
  readonly pitch: number;
  readonly frequency: number;
  readonly resistivity: number;
  readonly ratio: number;
  readonly lone: number;
}

/** Made by test/fixtures/close-wires.py. */
const BUNDLES: readonly Bundle[] = JSON.parse(
  readFileSync(new URL('../fixtures/close-wires.json', import.meta.url), 'utf8'),
);

const closeWires = new CloseWires();

/** R/Rdc with the factor, and x. */
function withFactor(bundle: Bundle): { ratio: number; x: number } {
  const skin = { resistanceRatio: 1, inductanceRatio: 1 };
  const argument = skinArgument(bundle.wire / 2, bundle.resistivity, 1, 2 * Math.PI * bundle.frequency);
  skinEffect(argument, skin);
  const x = argument / Math.SQRT2;
  const factor = closeWires.factor(x, { ...bundle, closeness: bundle.wire / bundle.pitch });
  return { ratio: skin.resistanceRatio + factor * (bundle.lone - skin.resistanceRatio), x };
}

describe('CloseWires', () => {
  it('gives the resistance of 52 bundles within 2 % of the multipoles: interpolation alone', () => {
    for (const bundle of BUNDLES) {
      expect(Math.abs(withFactor(bundle).ratio / bundle.ratio - 1), JSON.stringify(bundle)).toBeLessThan(
        0.02,
      );
    }
  });

  it('is needed: lone wires are off by more than 40 % either way somewhere, and by 1 % at most below x = 0.7', () => {
    const off = BUNDLES.map((bundle) => ({ x: withFactor(bundle).x, error: bundle.lone / bundle.ratio - 1 }));
    expect(Math.max(...off.map(({ error }) => error))).toBeGreaterThan(0.4);
    expect(Math.min(...off.map(({ error }) => error))).toBeLessThan(-0.2);
    for (const { x, error } of off) if (x < 0.6) expect(Math.abs(error)).toBeLessThan(0.01);
  });

  it('agrees with filaments, a method of its own, on the bundles of the contract', () => {
    // R/Rdc by test/fixtures/close-wires-filaments.py, which approaches from below; good to 1.3 %
    const filaments = [8.675, 31.58, 11.063, 8.652];
    const places = [0, 1, 3, 4];
    places.forEach((place, i) => {
      expect(Math.abs(withFactor(BUNDLES[place]!).ratio / filaments[i]! - 1)).toBeLessThan(0.02);
    });
  });

  it('is 1 for thin wires, and continuous over x, counts and closeness', () => {
    const order = { layers: 8, columns: 12, closeness: 0.94 };
    expect(closeWires.factor(0.5, order)).toBe(1);
    expect(closeWires.factor(0.1, order)).toBe(1);
    const step = 1e-6;
    for (let i = 0; i < 4000; i++) {
      const t = i / 4000;
      const at = (shift: number) => {
        const s = t + shift;
        return closeWires.factor(0.45 * 100 ** s, {
          layers: 1 + 30 * s,
          columns: 40 - 39 * s,
          closeness: 0.2 + 0.79 * s,
        });
      };
      expect(Math.abs(at(step) - at(0))).toBeLessThan(1e-3);
    }
  });

  it('does not depend on which side of the section the layers lie along', () => {
    const one = closeWires.factor(3, { layers: 3, columns: 17, closeness: 0.9 });
    expect(closeWires.factor(3, { layers: 17, columns: 3, closeness: 0.9 })).toBe(one);
  });

  it('leaves a single wire nothing but its skin effect', () => {
    expect(closeWires.factor(3, { layers: 1, columns: 1, closeness: 0.9 })).toBeLessThan(1e-3);
  });
});
