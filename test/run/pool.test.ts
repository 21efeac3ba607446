import { describe, expect, it } from 'vitest';
import { createPool } from '../../src/run/pool.ts';
import { createTimeLimit } from '../../src/run/time-limit.ts';

const task = {
  rig: { slots: new Float64Array(0), plateLayers: 1, windings: 0, texts: {} },
  vary: [],
  derive: [],
  limits: [],
  objectives: [],
};

function pool(worker: string, threads = 1) {
  return createPool({
    task,
    stamp: '',
    threads,
    batchesPerThread: 1,
    timeLimit: createTimeLimit(Date.now),
    worker: new URL(`../fixtures/workers/${worker}.mjs`, import.meta.url),
  });
}

const SAMPLE = { first: 0, count: 4, values: Float64Array.of(0, 1, 2, 3) };

describe('a trial of designs', () => {
  it('is broken off at a design that takes for ever, and tells how long one takes at least', async () => {
    const { time, stop } = pool('slow-trial');
    // two designs and a part of the third in 2 s
    expect(await time(SAMPLE, 1000)).toEqual({ seconds: 2 / 3, slowdown: 1, atLeast: true });
    await stop();
  });

  it('ends with the pool, whatever it is at', async () => {
    const { time, stop } = pool('slow-trial');
    const trial = expect(time(SAMPLE, 1000)).rejects.toThrow();
    await stop();
    await trial;
  });
});

describe('a pool', () => {
  it('loads the module of its threads by import(), not by require(), which cannot be cut off safely', async () => {
    const { evaluate, stop } = pool('how-loaded');
    expect((await evaluate(SAMPLE)).count).toBe(4);
    await stop();
  });

  it('may be stopped while its threads load, and again', async () => {
    for (let n = 0; n < 3; n++) {
      const { stop } = pool('echo', 2);
      await Promise.all([stop(), stop()]);
    }
  });

  it('takes nothing more once it is stopped', async () => {
    const { evaluate, stop } = pool('echo');
    await stop();
    await expect(evaluate(SAMPLE)).rejects.toThrow('stopped');
  });
});
