import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { createStudyReader as Create } from '../../src/run/study-reader.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { PROJECT } from '../support/source-files.ts';

describe('a reader of announced studies', () => {
  it('reads on its own thread, gives up on what takes too long, and reads the next', async () => {
    // its thread runs the built program
    const built = join(PROJECT, 'dist/src/run/study-reader.js');
    const { createStudyReader } = (await import(built)) as { createStudyReader: typeof Create };
    const reader = createStudyReader(4);
    try {
      const lines = Array.from({ length: 20_000 }, (_, i) => `  d${i}: {is: height / current, unit: mm/A}`);
      const slow = disturbedStudy('Slow', `derive:\n${lines.join('\n')}\n`);
      let turns = 0;
      const timer = setInterval(() => turns++, 20);
      expect(await reader.read(slow)).toMatch(/^takes more than (4 s|256 MB) to read$|^it cannot read$/);
      clearInterval(timer);
      // this thread went on meanwhile
      expect(turns).toBeGreaterThan(2);
      // a text of any kind, where there is no time at all
      const hasty = createStudyReader(0.001);
      expect(await hasty.read(slow)).toBe('takes more than 0.001 s to read');
      await hasty.stop();
      // on a busy machine even a plain text may take 4 s: then it is asked again
      const readSoon = async (text: string) => {
        for (let n = 0; n < 5; n++) {
          const reading = await reader.read(text);
          if (typeof reading !== 'string' || !reading.startsWith('takes more')) return reading;
        }
        return 'takes too long, whatever it is';
      };
      expect(await readSoon('study: [')).toBe('it cannot read');
      expect(await readSoon(disturbedStudy('Plain'))).toMatchObject({
        title: 'Plain',
        vary: [{}, {}, {}],
      });
    } finally {
      await reader.stop();
    }
  });
});
