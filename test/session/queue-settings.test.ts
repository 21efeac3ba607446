import { chmodSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../../src/commands/run.ts';
import { queueSettings } from '../../src/session/queue-settings.ts';
import { scratchFolder } from '../support/cli.ts';

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const choice = { address: 'redis://lab', password: null, secret: null, secretFile: null };
const SECRET = 'k3 of the foyer workshop';

describe('the secret of a queue', () => {
  it('comes from the environment or a file, signs alike, and is left out where there is none', async () => {
    writeFileSync(join(folder, 'secret'), `${SECRET}\n`, { mode: 0o600 });
    const { signer: named } = await queueSettings({ ...choice, secretFile: 'secret' }, folder);
    const { signer: given } = await queueSettings({ ...choice, secret: SECRET }, folder);
    const { signer: none } = await queueSettings(choice, folder);
    expect(given.check(named.sign('a', 'b'), 'a', 'b')).toBeNull();
    expect(given.check(named.sign('a', 'b'), 'ab')).toBe('it is signed with another secret');
    expect([named.hasSecret, given.hasSecret, none.hasSecret]).toEqual([true, true, false]);
    expect(none.sign('a')).toBe('');
  });

  it('signs with HMAC-SHA-256, as a second implementation has it', async () => {
    // of '["what do ya want for nothing?"]' with this key, by the hmac module of Python 3
    const { signer } = await queueSettings({ ...choice, secret: 'JefeJefeJefeJefe' }, folder);
    expect(signer.sign('what do ya want for nothing?')).toBe(
      '3199c5c797bcdd3a3a107cef7a305a67e689a626611448ff4da5edf7aeac31bb',
    );
  });

  it('is refused when it is short, given twice, nowhere, or open to everybody; no message holds it', async () => {
    writeFileSync(join(folder, 'open'), SECRET);
    chmodSync(join(folder, 'open'), 0o644);
    writeFileSync(join(folder, 'short'), 'short', { mode: 0o600 });
    for (const [changes, why] of [
      [{ secret: 'too short' }, /^the secret in EDDYLIFT_QUEUE_SECRET has 9 characters; wanted 16 to 4096/],
      [{ secretFile: 'short' }, /^the secret in the file of EDDYLIFT_QUEUE_SECRET_FILE has 5 characters/],
      [
        { secret: SECRET, secretFile: 'open' },
        /^both EDDYLIFT_QUEUE_SECRET and EDDYLIFT_QUEUE_SECRET_FILE are set/,
      ],
      [{ secretFile: 'absent' }, /names absent, which cannot be read \(ENOENT\)$/],
      [{ secretFile: '.' }, /names \., which is no file$/],
      [{ secretFile: 'open' }, /names open, which everybody on this machine can read: chmod 600 open$/],
    ] as const) {
      const error = await queueSettings({ ...choice, ...changes }, folder).catch((thrown: Error) => thrown);
      expect(error).toMatchObject({ name: 'UsageError', message: expect.stringMatching(why) });
      expect((error as Error).message).not.toContain(SECRET);
    }
  });
});

describe('how long a run waits for its queue', () => {
  it.each(['10', 'soon', '0 s', '31 d', '-1 min', ''])('is no time when it is %j', async (timeout) => {
    const io = { cwd: folder, now: () => 0, signal: new AbortController().signal } as Parameters<
      typeof run
    >[2];
    const options = { queue: { ...choice, timeout }, threads: 1 } as Parameters<typeof run>[1];
    await expect(run(['absent.yaml'], options, io)).rejects.toThrow(
      `--queue-timeout ${JSON.stringify(timeout)}: wanted a time with its unit, 1 s to 30 d, such as '10 min' or '2 h'`,
    );
  });
});
