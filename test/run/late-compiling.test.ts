import { spawnSync } from 'node:child_process';
import { describe, expect, it, vi } from 'vitest';
import { compileAsUsual, compileLate } from '../../src/run/late-compiling.ts';

const { set } = vi.hoisted(() => ({ set: vi.fn() }));
vi.mock('node:v8', async (original) => ({ ...(await original<object>()), setFlagsFromString: set }));

describe.skipIf(!process.versions.v8.startsWith('11.'))('compiling late', () => {
  it('gives functions more before the compiler takes them, and afterwards what V8 gives by itself', () => {
    const { stdout } = spawnSync(process.execPath, ['--v8-options'], { encoding: 'utf8' });
    const usual = Number(/default: --interrupt-budget=(\d+)/.exec(stdout)![1]);
    compileLate();
    compileAsUsual();
    const budgets = set.mock.calls.map(([flag]) => Number(/^--interrupt-budget=(\d+)$/.exec(flag)![1]));
    expect(budgets).toEqual([expect.any(Number), usual]);
    expect(budgets[0]).toBeGreaterThan(usual);
  });
});
