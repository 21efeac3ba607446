import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { studyChanges } from '../../src/store/own-study.ts';

const text = readFileSync(new URL('../fixtures/old-result/study.yaml', import.meta.url), 'utf8');
const hash = createHash('sha256').update(text).digest('hex');
const bytes = () => new TextEncoder().encode(text);

describe('studyChanges', () => {
  it('finds none in the study that was run', () => {
    expect(studyChanges(bytes(), { hash, text })).toBeNull();
    expect(studyChanges(bytes(), { hash, text: null })).toBeNull();
  });

  it('finds every flipped bit, in one line for a terminal', () => {
    for (let bit = 0; bit < 8 * text.length; bit++) {
      const flipped = bytes();
      flipped[bit >> 3]! ^= 1 << (bit & 7);
      const said = studyChanges(flipped, { hash, text });
      expect(said).toMatch(/^study\.yaml is not the study that was run: line \d+ is .+ and was .+$/);
      expect(said).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    }
  });

  it('finds a line that was cut off or put on', () => {
    expect(studyChanges(bytes().slice(0, text.lastIndexOf('plan')), { hash, text })).toContain(
      'is `` and was `plan: {grid: {}}`',
    );
    const longer = new TextEncoder().encode(`${text}keep: [height]`);
    expect(studyChanges(longer, { hash, text })).toContain('is `keep: [height]` and was ``');
  });

  it('shows the place where a long line differs', () => {
    const long = `study: x\nnotes: ${'many words '.repeat(40)}`;
    const was = { hash: createHash('sha256').update(long).digest('hex'), text: long };
    const now = new TextEncoder().encode(`${long.slice(0, 300)}Q${long.slice(301)}`);
    const said = studyChanges(now, was)!;
    expect(said).toMatch(/: line 2 is `\.\.\..*Q.*\.\.\.` and was /);
    expect(said.length).toBeLessThan(250);
  });

  it('tells a damaged record from a changed study', () => {
    const other = hash.replace(/^./, (digit) => (digit === '0' ? '1' : '0'));
    expect(studyChanges(bytes(), { hash: other, text })).toMatch(/^run\.json is damaged/);
    // a copy that does not fit the hash says nothing
    expect(studyChanges(bytes().slice(1), { hash, text: text.slice(2) })).toContain('SHA-256');
  });
});
