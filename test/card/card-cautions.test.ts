import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeCard } from '../../src/card/bench-card.ts';
import { cardHtml } from '../../src/card/card-html.ts';
import { cardJson } from '../../src/card/card-json.ts';
import { cardText } from '../../src/card/card-text.ts';
import { raisedOf, unjudgedOf } from '../../src/model/cautions/judge.ts';
import { cautionsSection } from '../../src/report/page/cautions-section.ts';
import { loadStudy } from '../../src/session/load-study.ts';
import { notJudgedWords } from '../../src/text/caution-words.ts';
import { madeUpReport } from '../support/made-up-report.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

/** The foyer table: 500 turns of aluminium in 10 layers at 14.4 A; plate radius, line voltage, fuse and people left out. */
const study = (await loadStudy(join(PROJECT, 'studies/metal-and-turns.yaml'), false, testIo()))!;
const card = makeCard(study, 496, Float64Array.of(0, 500, 10, 14.4));
const raised = raisedOf(card.cautions);
const unjudged = unjudgedOf(card.cautions);

const squeezed = (text: string) => text.replace(/\s+/g, ' ');
const withoutMarkup = (html: string) =>
  squeezed(html.replace(/<[^>]*>/g, ' '))
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll(' .', '.');

describe('the cautions of a card', () => {
  const text = squeezed(cardText(card, 80));

  it('are as many as the rig deserves, and name what is missing', () => {
    expect(raised.length).toBeGreaterThan(10);
    expect(unjudged.map(({ missing }) => missing)).toEqual([
      'no `line_voltage` given',
      'no `plate.radius` given',
      'no `fuse` given',
      'no `headroom` given',
      'no `visitor_distance` given',
      'no `operator_distance` given',
    ]);
  });

  it('stand on text, page and report with the same words, threshold, advice and source, shock first', async () => {
    const page = withoutMarkup(await cardHtml(card, '0.0.0'));
    const report = madeUpReport();
    const [first, ...others] = report.chosen;
    const section = cautionsSection({
      ...report,
      chosen: [{ ...first!, cautions: card.cautions }, ...others],
    });
    const told = withoutMarkup(section.source);
    for (const { rule } of raised) {
      for (const where of [text, page, told]) {
        expect(where.toLowerCase()).toContain(rule.rule.toLowerCase());
        expect(where).toContain(rule.advice);
        expect(where).toContain(rule.source);
      }
    }
    for (const where of [text, page, told]) {
      for (const each of unjudged) expect(where).toContain(notJudgedWords(each));
      expect(where).toContain('from 0.25 J');
      const places = raised.map(({ rule }) => where.toLowerCase().lastIndexOf(rule.rule.toLowerCase()));
      expect(places).toEqual([...places].sort((a, b) => a - b));
    }
    expect(raised[0]!.rule.hazard).toBe('shock');
  });

  it('are the same for machines', () => {
    const { cautions, not_judged } = JSON.parse(JSON.stringify(cardJson(card)));
    expect(cautions.map(({ id }: { id: string }) => id)).toEqual(raised.map(({ rule }) => rule.id));
    expect(not_judged).toEqual(unjudged);
    const touch = cautions.find(({ id }: { id: string }) => id === 'touch-voltage');
    expect(touch).toMatchObject({ hazard: 'shock', at_least: true, threshold: 50, unit: 'V' });
    expect(text).toContain(`(at least ${touch.value.toPrecision(4)} V; from 50 V)`);
  });

  it('of a design without an answer are one line', () => {
    // two turns do not make ten layers
    const impossible = makeCard(study, 0, Float64Array.of(0, 2, 10, 14.4));
    expect(impossible.curve).toEqual([]);
    expect(squeezed(cardText(impossible, 80))).toContain(
      'not judged: the design has no answer (all cautions)',
    );
  });
});
