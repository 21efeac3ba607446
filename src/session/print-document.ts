import { DOCUMENT_FORMAT } from '../documents/document-format.ts';
import type { DocumentBody, DocumentName } from '../documents/document-shapes.ts';
import type { Study } from '../model/study.ts';
import { inCurrency } from '../text/currency.ts';
import type { Io } from './io.ts';
import { version } from './version.ts';

/** Prints what a command found as one JSON document on stdout. `study`: whose currency its texts are in. */
export function printDocument<Name extends DocumentName>(
  io: Pick<Io, 'stdout' | 'document'>,
  document: Name,
  body: DocumentBody<Name>,
  study?: Pick<Study, 'stock'>,
): void {
  const problems = io.document?.problems ?? [];
  const whole = { document, format: DOCUMENT_FORMAT, eddylift: version(), ...body, problems };
  const text = `${JSON.stringify(whole)}\n`;
  const shown = study ? inCurrency(text, study) : text;
  if (io.document) io.document.print(shown);
  else io.stdout.write(shown);
}
