import { expect, it } from 'vitest';
import { quantities } from '../../src/commands/quantities.ts';
import { INPUTS } from '../../src/model/inputs.ts';
import { QUANTITIES } from '../../src/model/quantities.ts';
import { testIo } from '../support/test-io.ts';

it('lists every quantity with its unit and meaning', () => {
  const io = testIo();
  expect(quantities(io)).toBe(0);
  const lines = io.out().replace(/\s+/g, ' ');
  for (const { name, unit, meaning } of QUANTITIES) {
    expect(lines).toContain(` ${[name, unit.symbol, meaning].filter((text) => text !== '').join(' ')}`);
  }
});

it('lists the inputs under the names that expressions use, one plate layer for all', () => {
  const io = testIo();
  quantities(io);
  expect(io.out()).toMatch(/\n {2}plate_thickness +mm +thickness of the plate/);
  expect(io.out()).not.toMatch(/\n {2}plate_layers_1/);
  for (const { name, path } of INPUTS)
    if (!path.startsWith('plate.layers')) expect(io.out()).toContain(` ${name} `);
});

it('stays within a terminal of 80 columns', () => {
  const io = testIo({ columns: 80 });
  quantities(io);
  expect(
    Math.max(
      ...io
        .out()
        .split('\n')
        .map((line) => line.length),
    ),
  ).toBeLessThanOrEqual(80);
});
