import { spawnSync } from 'node:child_process';
import { afterAll, expect, it, vi } from 'vitest';

const set = vi.fn();
afterAll(() => {
  vi.doUnmock('node:v8');
  vi.resetModules();
});

it('more is inlined where each thread has 300,000 designs, by a flag that V8 knows', async () => {
  vi.resetModules();
  vi.doMock('node:v8', async (original) => ({ ...(await original<object>()), setFlagsFromString: set }));
  const { inlineForMany } = await import('../../src/run/inlining.ts');
  inlineForMany(0, 1);
  inlineForMany(299_999, 1);
  inlineForMany(1_000_000, 4);
  expect(set).not.toHaveBeenCalled();
  inlineForMany(300_000, 1);
  inlineForMany(600_000, 2);
  expect(set).toHaveBeenCalledTimes(2);
  const flag: string = set.mock.lastCall![0];
  const { stderr, stdout } = spawnSync(process.execPath, [flag, '--print', '1'], { encoding: 'utf8' });
  expect({ stderr, stdout }).toEqual({ stderr: '', stdout: '1\n' });
});
