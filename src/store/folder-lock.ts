import { constants, readFileSync } from 'node:fs';
import { open, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { asFolderError, FolderError } from './folder-error.ts';

/**
 * One run at a time in a folder, by claims: each run puts down an empty file whose name holds which process it is, then
 * looks for others. The claim of a process that is no more (of another boot, or its id given to another process since)
 * is removed and does not count; removing it can hurt nobody, since no other process bears that name. Of two runs that
 * start together at least one sees the other and gives way.
 *
 * Distinguished by process id, boot and start time where the system gives these (Linux), elsewhere by id alone. Runs in
 * containers or on machines that share a folder but not their process ids do not see each other.
 */
export async function lockFolder(folder: string): Promise<() => Promise<void>> {
  const own = claimOf(process.pid, bootId(), startTime(process.pid));
  const path = join(folder, own);
  try {
    await (await open(path, CLAIM_FLAGS)).close();
    for (const name of await readdir(folder)) {
      const claim = parseClaim(name);
      if (claim === null || name === own) continue;
      if (isAlive(claim)) {
        await rm(path, { force: true });
        throw new FolderError(
          'LOCKED',
          folder,
          `${folder} is in use by another run (process ${claim.pid}); wait for it or choose another folder`,
        );
      }
      await rm(join(folder, name), { force: true });
    }
  } catch (error) {
    await rm(path, { force: true }).catch(() => undefined);
    throw asFolderError(error, folder);
  }
  return () => rm(path, { force: true }).catch(() => undefined);
}

/** Whether a file name is that of a claim, of whichever process. */
export function isClaim(name: string): boolean {
  return parseClaim(name) !== null;
}

/** Never through a link that somebody left under this name. Windows knows no such flag. */
const CLAIM_FLAGS = constants.O_CREAT | constants.O_WRONLY | (constants.O_NOFOLLOW ?? 0);

interface Claim {
  readonly pid: number;
  readonly boot: string;
  readonly start: string;
}

/** What stands for a boot or a start time that the system does not give. */
const UNKNOWN = 'x';

function claimOf(pid: number, boot: string, start: string): string {
  return `.run-${pid}-${start}-${boot}.lock`;
}

function parseClaim(name: string): Claim | null {
  const match = /^\.run-([1-9]\d*)-(\d+|x)-([0-9a-f]{32}|x)\.lock$/.exec(name);
  return match && { pid: Number(match[1]), start: match[2]!, boot: match[3]! };
}

function isAlive({ pid, boot, start }: Claim): boolean {
  if (boot !== bootId()) return false;
  if (start !== UNKNOWN) return start === startTime(pid);
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}

function bootId(): string {
  return read('/proc/sys/kernel/random/boot_id')?.trim().replaceAll('-', '') ?? UNKNOWN;
}

/** Clock ticks from boot to the start of a process: field 22 of its stat file, proc(5). */
function startTime(pid: number): string {
  // the second field is the program's name in parentheses, which may hold anything
  const afterName = read(`/proc/${pid}/stat`)?.replace(/^.*\) /s, '');
  return afterName?.split(' ')[19] ?? UNKNOWN;
}

function read(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}
