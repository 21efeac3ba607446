import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { documentsSchemaText } from '../../src/documents/documents-schema.ts';

const COMMITTED = new URL('../../schemas/documents.schema.json', import.meta.url);

describe('schemas/documents.schema.json', () => {
  it('is what the shapes give, byte for byte (`-u` renews it)', async () => {
    await expect(documentsSchemaText()).toMatchFileSnapshot(COMMITTED.pathname);
  });

  it('is a schema that ajv compiles in strict mode, each document by its own name too', () => {
    const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
    const schema = JSON.parse(documentsSchemaText());
    ajv.addSchema(schema);
    const names = Object.keys(schema.$defs).filter((name) => schema.$defs[name].properties?.document);
    expect(names.length).toBeGreaterThan(10);
    for (const name of names) {
      const validate = ajv.compile({ $ref: `${schema.$id}#/$defs/${name}` });
      expect(validate({ document: 'no such document', format: 1 })).toBe(false);
    }
  });
});
