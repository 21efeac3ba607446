import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { progressLine, showProgress } from '../../src/run/progress.ts';

const designs = (total: number) => ({ total, noun: 'designs' });

describe('progressLine', () => {
  it('shows bar, percent, count, rate and time left', () => {
    expect(progressLine(25_000, designs(100_000), 12_500, 80)).toMatchInlineSnapshot(
      `"[=====                 ] 25 % · 25,000 of 100,000 designs · 12,500/s · 6 s left"`,
    );
  });

  it('says no rate while none is known', () => {
    expect(progressLine(10, designs(100), Number.NaN, 80)).not.toMatch(/NaN|left/);
    expect(progressLine(0, designs(100), 0, 80)).toMatchInlineSnapshot(
      `"[                                        ] 0 % · 0 of 100 designs"`,
    );
  });

  it('drops the bar, then cuts the text, on a narrow terminal', () => {
    for (const width of [10, 20, 40, 60, 80, 200]) {
      expect(progressLine(25_000, designs(100_000), 12_500, width).length).toBeLessThan(width);
    }
    expect(progressLine(25_000, designs(100_000), 12_500, 40)).toMatchInlineSnapshot(
      `"25 % · 25,000 of 100,000 designs · 12,5"`,
    );
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
