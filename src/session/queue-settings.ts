import { readFile, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import { type QueueAddress, queueAddress } from '../queue/address.ts';
import { createSigner, type Signer } from '../queue/signature.ts';

/** As given on the command line and in the environment; null: not given. */
export interface QueueChoice {
  readonly address: string;
  readonly password: string | null;
  /** The secret that work and results are signed with, or the file that holds it. */
  readonly secret: string | null;
  readonly secretFile: string | null;
}

export interface QueueSettings {
  readonly address: QueueAddress;
  readonly signer: Signer;
}

/** Environment variables; what they hold is in no list of processes. */
export const QUEUE_SECRET = 'EDDYLIFT_QUEUE_SECRET';
const QUEUE_SECRET_FILE = 'EDDYLIFT_QUEUE_SECRET_FILE';

/** A shorter secret can be found by trying. */
const SHORTEST = 16;
const LONGEST = 4096;
/** Everybody on the machine may read the file. */
const READ_BY_ALL = 0o004;

/** Throws UsageError for an address that is none or a secret that cannot be used; no message holds a secret. */
export async function queueSettings(choice: QueueChoice, cwd: string): Promise<QueueSettings> {
  return {
    address: queueAddress(choice.address, choice.password),
    signer: createSigner(await secretOf(choice, cwd)),
  };
}

async function secretOf({ secret, secretFile }: QueueChoice, cwd: string): Promise<string | null> {
  if (secret !== null && secretFile !== null) {
    throw new UsageError(`both ${QUEUE_SECRET} and ${QUEUE_SECRET_FILE} are set; one of them is wanted`);
  }
  if (secretFile !== null)
    return checked(await readSecret(secretFile, cwd), `the file of ${QUEUE_SECRET_FILE}`);
  return secret === null ? null : checked(secret.trim(), QUEUE_SECRET);
}

async function readSecret(file: string, cwd: string): Promise<string> {
  const path = resolve(cwd, file);
  const refuse = (why: string, cause?: unknown) =>
    new UsageError(`${QUEUE_SECRET_FILE} names ${file}, which ${why}`, { cause });
  try {
    const found = await stat(path);
    if (!found.isFile()) throw refuse('is no file');
    // Windows has no such bits
    if (process.platform !== 'win32' && (found.mode & READ_BY_ALL) !== 0) {
      throw refuse(`everybody on this machine can read: chmod 600 ${file}`);
    }
    if (found.size > LONGEST) throw refuse('is too long for a secret');
    return (await readFile(path, 'utf8')).trim();
  } catch (error) {
    if (error instanceof UsageError) throw error;
    const { code, message } = error as NodeJS.ErrnoException;
    throw refuse(`cannot be read (${code ?? message})`, error);
  }
}

function checked(secret: string, where: string): string {
  if (secret.length >= SHORTEST && secret.length <= LONGEST) return secret;
  throw new UsageError(
    `the secret in ${where} has ${secret.length} characters; wanted ${SHORTEST} to ${LONGEST}, for instance from: openssl rand -hex 32`,
  );
}
