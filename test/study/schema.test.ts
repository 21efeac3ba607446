import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { studySchemaText } from '../../src/study/schema.ts';

const COMMITTED = new URL('../../studies/study.schema.json', import.meta.url);

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
