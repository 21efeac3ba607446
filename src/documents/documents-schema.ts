import * as z from 'zod';
import { DOCUMENT_FORMAT } from './document-format.ts';
import { DOCUMENTS } from './document-shapes.ts';

/** The `$id` of the schema; a name, not a place. */
const DOCUMENTS_ID = `urn:eddylift:documents:${DOCUMENT_FORMAT}`;

/**
 * JSON Schema of what commands print with --json. As shipped it lets keys be added; `closed` refuses what it does not
 * know, for tests.
 */
export function documentsSchemaText({ closed = false } = {}): string {
  const all = Object.entries(DOCUMENTS).map(([id, shape]) => shape.meta({ id }));
  const { $schema, ...schema } = z.toJSONSchema(z.union(all as unknown as [z.ZodObject, ...z.ZodObject[]]), {
    io: closed ? 'output' : 'input',
    reused: 'inline',
  });
  return `${JSON.stringify(
    {
      $schema,
      $id: DOCUMENTS_ID,
      title: 'What Eddylift prints with --json',
      ...schema,
    },
    null,
    2,
  )}\n`;
}
