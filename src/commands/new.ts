import { resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import { EXIT, type Io } from '../session/io.ts';
import { promptAnswers } from '../session/prompt-answers.ts';
import { schemaReference } from '../session/schema-reference.ts';
import { writeNewFile } from '../store/write-new-file.ts';
import { DEFAULT_ANSWERS, newStudyText } from '../study/new-study.ts';

export interface NewOptions {
  /** Take every default and ask nothing. */
  readonly yes: boolean;
}

/** The name of a study that nobody named. */
const USUAL_NAME = 'coil.yaml';

/** `eddylift new`: writes a commented study that works, about the rig that a few questions describe. Never overwrites. */
export async function newStudy(file: string | null, { yes }: NewOptions, io: Io): Promise<number> {
  const shown = file ?? USUAL_NAME;
  if (!/\.ya?ml$/i.test(shown))
    throw new UsageError(`${shown}: wanted the name of a study file, such as ${USUAL_NAME}`);
  const path = resolve(io.cwd, shown);
  const answers = yes || !io.stdin?.isTTY ? DEFAULT_ANSWERS : await promptAnswers(io.stdin, io);
  if (answers === null) return EXIT.interrupted;
  await writeNewFile(path, newStudyText(answers, schemaReference(path)), shown);
  io.stdout.write(
    `${shown}: written. Next:\n  eddylift card ${shown}     what this rig does\n  eddylift check ${shown}    after you changed it\n  eddylift run ${shown}      once something varies in it\n`,
  );
  return EXIT.done;
}
