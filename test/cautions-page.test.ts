import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CAUTION_RULES } from '../src/model/cautions/judge.ts';
import { cautionsPage } from './support/cautions-page.ts';

const COMMITTED = new URL('../docs/cautions.md', import.meta.url);

describe('the page of cautions', () => {
  it('is what the registry gives, byte for byte', async () => {
    await expect(cautionsPage()).toMatchFileSnapshot(COMMITTED.pathname);
    expect(readFileSync(COMMITTED, 'utf8')).toBe(cautionsPage());
  });

  it('lists every caution with rule, threshold, advice and source', () => {
    const page = cautionsPage();
    for (const { id, advice, source } of CAUTION_RULES) {
      expect(page).toContain(`- Rule \`${id}\`: `);
      expect(page).toContain(`- What to do: ${advice}\n- Source: ${source}.\n`);
    }
    expect(page).not.toMatch(/NaN|undefined/);
  });
});
