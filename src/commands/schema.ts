import { EXIT, type Io } from '../session/io.ts';
import { readSchema } from '../session/schema-reference.ts';

/** `eddylift schema`: the JSON Schema of study files, or of what commands print with --json. */
export function schema(of: 'study' | 'documents', io: Io): number {
  io.stdout.write(readSchema(of));
  return EXIT.done;
}
