import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MU0 } from '../../src/kernel/constants.ts';
import { VisitorField } from '../../src/kernel/visitor-field.ts';

/** r1, r2, h, gap, conductivity, permeability, thickness, frequency, distance, beside alone, with, axis alone, with. */
type Row = [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

const ROWS = JSON.parse(
  readFileSync(new URL('../fixtures/visitor-field-reference.json', import.meta.url), 'utf8'),
) as Row[];

function evaluate(
  [r1, r2, h, gap, sigma, mu, t, frequency, d]: Row | number[],
  turns = 1,
  field = new VisitorField(),
) {
  const layer = { resistivity: 1 / sigma!, relativePermeability: mu!, thickness: t! };
  const section = { innerRadius: r1!, outerRadius: r2!, height: h!, turns };
  const plate = { layers: [layer], layerCount: 1, omega: 2 * Math.PI * frequency! };
  field.evaluate([{ ...section, offset: 0, sense: 1 }], 1, plate, gap!, d!);
  return field;
}

describe('VisitorField against dense quadrature (test/fixtures/visitor-field-reference.py)', () => {
  it('is the larger of coil alone and coil with plate beside the coil, within 6 %, half of the rigs within 1 %', () => {
    const errors = ROWS.map((row) => Math.abs(evaluate(row).beside / Math.max(row[9], row[10]) - 1));
    expect(Math.max(...errors)).toBeLessThan(0.06);
    errors.sort((a, b) => a - b);
    expect(errors[errors.length / 2]!).toBeLessThan(0.01);
    // rigs in which the plate raises the field by half are among them
    expect(ROWS.filter((row) => row[10] > 1.5 * row[9]).length).toBeGreaterThan(5);
  });

  it('is that on the axis within 0.5 %', () => {
    for (const row of ROWS) {
      expect(Math.abs(evaluate(row).onAxis / Math.max(row[11], row[12]) - 1)).toBeLessThan(5e-3);
    }
  });

  it('is the field of a dipole far from a coil whose plate hardly conducts', () => {
    // m = mean area: (r1^2 + r1 r2 + r2^2) / 3 pi; beside mu0 m / (4 pi d^3), on the axis twice that
    const [r1, r2, d] = [0.02, 0.05, 3];
    const moment = (Math.PI * (r1 * r1 + r1 * r2 + r2 * r2)) / 3;
    const field = evaluate([r1, r2, 0.01, 0.005, 1, 1, 1e-4, 50, d], 100);
    // of order (r2 / d)^2
    expect(field.beside / ((100 * MU0 * moment) / (4 * Math.PI * d ** 3))).toBeCloseTo(1, 3);
    expect(field.onAxis / ((100 * MU0 * moment) / (2 * Math.PI * d ** 3))).toBeCloseTo(1, 3);
  });

  it('falls as rigs grow in all lengths, near and far, where their plates hardly conduct', () => {
    // far: just beyond 2.8 radii, where the highest of the powers counts most
    for (const distance of [0.2, 0.3, 1]) {
      const one = evaluate([0.04, 0.1, 0.02, 0.01, 1e-6, 1, 1e-4, 50, distance]);
      for (const size of [0.01, 100]) {
        const lengths = [0.04, 0.1, 0.02, 0.01, 1e-6, 1, 1e-4, 50, distance].map((each, i) =>
          [4, 5, 7].includes(i) ? each : each * size,
        );
        const other = evaluate(lengths);
        expect((other.beside * size) / one.beside).toBeCloseTo(1, 7);
        expect((other.onAxis * size) / one.onAxis).toBeCloseTo(1, 7);
      }
    }
  });

  it('is not known inside or right beside the winding, but on the axis it is', () => {
    const field = evaluate([0.05, 0.166, 0.017, 0.004, 3e7, 1, 0.01, 50, 0.18]);
    expect(field.beside).toBeNaN();
    expect(field.onAxis).toBeGreaterThan(0);
  });

  it('is the same to the last bit whatever was asked before', () => {
    const field = new VisitorField();
    // now the gap differs, now the plate, the frequency or the distance
    for (const row of [
      [0.05, 0.166, 0.017, 0.004, 3e7, 1, 0.01, 50, 0.6],
      [0.05, 0.166, 0.017, 0.009, 3e7, 1, 0.01, 50, 0.6],
      [0.05, 0.166, 0.017, 0.009, 3e7, 1, 0.002, 50, 0.6],
      [0.05, 0.166, 0.017, 0.009, 3e7, 1, 0.002, 60, 0.6],
      [0.05, 0.166, 0.017, 0.009, 3e7, 1, 0.002, 60, 0.7],
      [0.05, 0.166, 0.017, 0.009, 3e7, 200, 0.002, 60, 0.7],
    ]) {
      const again = evaluate(row, 1, field);
      const fresh = evaluate(row);
      expect([again.beside, again.onAxis]).toEqual([fresh.beside, fresh.onAxis]);
    }
  });

  it('is the same, to the last bit, whatever plates and distances were asked before', () => {
    const [r1, r2, h, gap] = [0.04, 0.1, 0.02, 0.01];
    // more plates than are kept, of one metal and of several; each comes back twice
    const plates = Array.from({ length: 40 }, (_, p) => [
      3e7 / (1 + (p % 3)),
      p % 5 === 0 ? 100 : 1,
      (1 + (p % 20)) * 1e-3,
      p % 7 === 0 ? 400 : 50,
      p % 11 === 0 ? 0.7 : 0.6,
    ]);
    const kept = new VisitorField();
    for (let n = 0; n < 120; n++) {
      // some soon, some after all others
      const plate = plates[n % 4 === 3 ? (n - 2) % 40 : (n * 7) % 40]!;
      const row = [r1, r2, h, gap + n * 1e-5, ...plate];
      evaluate(row, 300, kept);
      const fresh = evaluate(row, 300);
      expect([kept.beside, kept.onAxis]).toEqual([fresh.beside, fresh.onAxis]);
    }
  });
});
