import { spawnSync } from 'node:child_process';
import { afterAll, describe, expect, it, vi } from 'vitest';

const set = vi.fn();

describe.skipIf(!process.versions.v8.startsWith('11.'))('compiling late', () => {
  afterAll(() => {
    vi.doUnmock('node:v8');
    vi.resetModules();
  });

  it('gives functions more before the compiler takes them, and afterwards what V8 gives by itself', async () => {
    // files share a process, so another may have loaded it already
    vi.resetModules();
    vi.doMock('node:v8', async (original) => ({ ...(await original<object>()), setFlagsFromString: set }));
    const { compileAsUsual, compileLate } = await import('../../src/run/late-compiling.ts');
    const { stdout } = spawnSync(process.execPath, ['--v8-options'], { encoding: 'utf8' });
    const usual = Number(/default: --interrupt-budget=(\d+)/.exec(stdout)![1]);
    compileLate();
    compileAsUsual();
    const budgets = set.mock.calls.map(([flag]) => Number(/^--interrupt-budget=(\d+)$/.exec(flag)![1]));
    expect(budgets).toEqual([expect.any(Number), usual]);
    expect(budgets[0]).toBeGreaterThan(usual);
    // whoever asks for it within what is late already leaves it so
    compileLate();
    compileLate()();
    expect(set.mock.lastCall).toEqual(set.mock.calls[0]);
    compileAsUsual();
    expect(set.mock.lastCall).toEqual(set.mock.calls[1]);
  });
});
