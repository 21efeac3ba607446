import { PassThrough } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { logProgress, progressLine, showProgress } from '../../src/run/progress.ts';

const designs = (total: number) => ({ total, noun: 'designs' });

describe('progressLine', () => {
  it('shows bar, percent, count, rate and time left', () => {
    expect(progressLine(25_000, designs(100_000), 12_500, 80)).toMatchInlineSnapshot(
      `"[=====               ] 25 % · 25,000 of 100,000 designs · 12,500/s · 6 s left"`,
    );
  });

  it('says no rate while none is known', () => {
    expect(progressLine(10, designs(100), Number.NaN, 80)).not.toMatch(/NaN|left/);
    expect(progressLine(0, designs(100), 0, 80)).toMatchInlineSnapshot(
      `"[                                        ] 0 % · 0 of 100 designs"`,
    );
  });

  it('drops the bar, then the rate, then the count, and cuts the rest, on a narrow terminal', () => {
    for (const width of [10, 20, 40, 60, 80, 200]) {
      expect(progressLine(25_000, designs(100_000), 12_500, width).length).toBeLessThan(width - '^C'.length);
    }
    expect([60, 52, 42, 14].map((width) => progressLine(25_000, designs(100_000), 12_500, width))).toEqual([
      '25 % · 25,000 of 100,000 designs · 12,500/s · 6 s left',
      '25 % · 25,000 of 100,000 designs · 6 s left',
      '25 % · 6 s left',
      '25 % · 6 s ',
    ]);
  });

  it('keeps the share of the whole and the time left for it on a terminal of 80 columns', () => {
    const lefts: (number | null)[] = [];
    const within = {
      reach: () => {},
      words: (left: number | null) => {
        lefts.push(left);
        return 'all 12: 12 %, 13 h 12 min left';
      },
    };
    expect(progressLine(25_000, { ...designs(1_000_000), within }, 125, 80)).toBe(
      '2 % · 2 h 10 min left · all 12: 12 %, 13 h 12 min left',
    );
    expect(lefts).toEqual([7800]);
  });
});

describe('showProgress', () => {
  function terminal(isTTY: boolean) {
    const stream = new PassThrough({ encoding: 'utf8' });
    return Object.assign(stream, { isTTY, columns: 80 });
  }

  it('writes nothing to what is not a terminal', () => {
    const stream = terminal(false);
    const progress = showProgress(stream, designs(100), () => 0);
    progress.update(50);
    progress.stop();
    expect(stream.read()).toBeNull();
  });

  it('leaves neither a hidden cursor nor switched-off wrapping behind', () => {
    const stream = terminal(true);
    const progress = showProgress(stream, designs(100), () => 0);
    progress.update(50);
    progress.stop();
    const written = stream.read() as string;
    expect(written).toContain('0 of 100 designs');
    expect(written).not.toMatch(/\[\?25l|\[\?7l/);
  });
});

describe('logProgress', () => {
  beforeEach(() => {
    vi.useFakeTimers({ now: Date.UTC(2025, 2, 1, 22) });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('writes a line a minute with time, done, rate and time left, and none after its end', () => {
    const stream = new PassThrough({ encoding: 'utf8' });
    const progress = logProgress(stream, 'night.yaml (2 of 5)', designs(100_000), Date.now);
    progress.update(1000);
    vi.advanceTimersByTime(59_000);
    expect(stream.read()).toBeNull();
    progress.update(31_000);
    vi.advanceTimersByTime(61_000);
    progress.stop();
    vi.advanceTimersByTime(600_000);
    expect(stream.read()).toMatchInlineSnapshot(`
      "2025-03-01T22:01:00Z night.yaml (2 of 5): 31 % · 31,000 of 100,000 designs · 500/s · 2 min 18 s left
      2025-03-01T22:02:00Z night.yaml (2 of 5): 31 % · 31,000 of 100,000 designs · 250/s · 4 min 36 s left
      "
    `);
  });

  it('leaves what was there already out of the rate', () => {
    const stream = new PassThrough({ encoding: 'utf8' });
    const progress = logProgress(stream, 'night.yaml', designs(100_000), Date.now);
    progress.update(1000, true);
    progress.update(90_000, true);
    vi.advanceTimersByTime(60_000);
    progress.update(96_000);
    vi.advanceTimersByTime(60_000);
    progress.stop();
    expect(stream.read()).toContain('96 % · 96,000 of 100,000 designs · 50/s · 1 min 20 s left');
  });
});
