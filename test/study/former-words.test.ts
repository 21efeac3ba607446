import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readFormerStudy } from '../../src/study/former-words.ts';
import { readStudy } from '../../src/study/read-study.ts';

const OLD = readFileSync(new URL('../fixtures/old-search/study.yaml', import.meta.url), 'utf8');

describe('the study of an earlier result', () => {
  it('is refused as a study of today, and read as that of a result', () => {
    expect(readStudy(OLD)).toHaveProperty('problems');
    const read = readFormerStudy(OLD);
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    expect(read.study.plan).toMatchObject({ kind: 'genetic' });
    expect(read.study.limits.map(({ text }) => text)).toEqual([
      'chatter_current <= 12 A',
      'probability(lifts) >= 0.5',
      'supply_loading <= 1',
    ]);
    // words that nobody refused stay as they are
    expect(read.study.title).toBe('A small table, searched for');
  });

  it('keeps other problems as they are, at their place in the file', () => {
    const broken = OLD.replace('drive: {current: 13 A}', 'drive: {curent: 13 A}');
    expect(readFormerStudy(broken)).toEqual(readStudy(broken));
  });

  it('is a study of today where nothing was renamed', () => {
    const now = readFileSync(new URL('../fixtures/foyer-table.yaml', import.meta.url));
    expect(readFormerStudy(now)).toMatchObject({ study: (readStudy(now) as { study: object }).study });
  });
});
