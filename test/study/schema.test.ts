import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { studySchemaText } from '../../src/study/schema.ts';
import { stockSchemaText } from '../../src/study/stock-schema.ts';

const COMMITTED = new URL('../../studies/study.schema.json', import.meta.url);

const STOCK_SCHEMA = new URL('../../studies/stock.schema.json', import.meta.url);
const RACK = new URL('../../studies/store/rack.yaml', import.meta.url);

describe('studies/study.schema.json', () => {
  it('is what the definitions of the reader give, byte for byte', async () => {
    await expect(studySchemaText()).toMatchFileSnapshot(COMMITTED.pathname);
    expect(readFileSync(COMMITTED, 'utf8')).toBe(studySchemaText());
  });

  it('knows the parts of a study and its paths, and refuses others', () => {
    const schema = JSON.parse(studySchemaText());
    expect(schema.required).toEqual(['study', 'rig']);
    expect(schema.additionalProperties).toBe(false);
    expect(schema.properties.rig.properties.coil.properties.turns.type).toEqual(['number', 'string']);
    expect(Object.keys(schema.properties.vary.properties)).toContain('plate.thickness');
  });

  it('lists every path as a key, since not every editor completes `propertyNames`, and each shape once', () => {
    const { properties, $defs } = JSON.parse(studySchemaText());
    const [, fitted] = properties.calibrated.anyOf;
    for (const [part, shape] of [
      [properties.vary, 'amounts'],
      [properties.tolerance, 'tolerance'],
      [fitted, 'fitted'],
    ] as const) {
      expect(part.additionalProperties).toBe(false);
      expect(part.properties['coil.wire']).toEqual({
        description: 'bare wire diameter',
        $ref: `#/$defs/${shape}`,
      });
      expect($defs[shape].anyOf.length).toBeGreaterThan(1);
    }
    expect(fitted.properties).not.toHaveProperty('drive.current');
  });
});

describe('studies/stock.schema.json', () => {
  const validate = new Ajv2020({ strict: false }).compile(JSON.parse(stockSchemaText()));
  const rack = () => parse(readFileSync(RACK, 'utf8'));

  it('is what the definitions of the reader give, byte for byte', async () => {
    await expect(stockSchemaText()).toMatchFileSnapshot(STOCK_SCHEMA.pathname);
    expect(readFileSync(STOCK_SCHEMA, 'utf8')).toBe(stockSchemaText());
  });

  it('takes the rack of the demo, which names it to editors', () => {
    expect(validate(rack())).toBe(true);
    const [, named] = /^# yaml-language-server: \$schema=(\S+)/m.exec(readFileSync(RACK, 'utf8'))!;
    expect(new URL(named!, RACK).pathname).toBe(STOCK_SCHEMA.pathname);
  });

  it.each([
    ['a reel without its metal', (file: ReturnType<typeof rack>) => delete file.reels[0].metal],
    ['a list that no stock has', (file: ReturnType<typeof rack>) => Object.assign(file, { reel: [] })],
    ['a price in words', (file: ReturnType<typeof rack>) => Object.assign(file.plates[0], { price: [24] })],
    ['a currency by its sign', (file: ReturnType<typeof rack>) => Object.assign(file, { currency: '€' })],
  ])('refuses %s', (_, spoil) => {
    const file = rack();
    spoil(file);
    expect(validate(file)).toBe(false);
  });

  it('says of every list and price what it is', () => {
    const { properties } = JSON.parse(stockSchemaText());
    for (const part of [
      'reels',
      'plates',
      'fuses',
      'capacitors',
      'transformers',
      'extras',
      'waste',
      'currency',
    ]) {
      expect(properties[part].description, part).toMatch(/\w/);
    }
    expect(properties.reels.items.properties.price.description).toContain('EUR/kg');
  });
});
