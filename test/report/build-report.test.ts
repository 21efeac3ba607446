import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildReport } from '../../src/report/build-report.ts';
import { METAL_INKS } from '../../src/report/charts/metal-inks.ts';
import { INK, RAMP } from '../../src/report/charts/palette.ts';
import type { Report, ReportInput } from '../../src/report/report-input.ts';
import { fittedFile, includeFitted } from '../../src/study/include-files.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';
import { evaluated, reportOn, studyFrom } from '../support/finished-study.ts';
import { hostileStudy } from '../support/hostile-study.ts';
import { whole } from '../support/nightly.ts';

const demo = (name: string) => studyFrom(new URL(`../../studies/${name}.yaml`, import.meta.url));

/** The dots of a chart, or of a page. */
function dots(svg: string): string[] {
  return Array.from(
    svg.matchAll(/<a href="#design-(\d+)" aria-label="[^"]*"><path/g),
    ([, design]) => design!,
  );
}

/** Colours of the figures that a dark screen would not turn. */
function unknownInks(figures: Report['figures']): string[] {
  const metals = METAL_INKS.map(({ ink }) => ink);
  const known = new Set<string>([...Object.values(INK), ...RAMP, ...metals, 'none', 'transparent']);
  const used = figures.flatMap(({ svg }) =>
    Array.from(svg.matchAll(/ (?:fill|stroke)="([^"]*)"/g), ([, ink]) => ink!),
  );
  return [...new Set(used)].filter((ink) => !known.has(ink));
}

describe('a report of a demo study', () => {
  let input: ReportInput;
  let report: Report;
  beforeAll(async () => {
    input = reportOn(demo('metal-and-turns'));
    report = await buildReport(input);
  });

  it('has the same bytes for the same input', async () => {
    const again = await buildReport(reportOn(demo('metal-and-turns')));
    expect(again.html === report.html).toBe(true);
    expect(again.figures).toEqual(report.figures);
  });

  it('has a dot on the front and a row in the table for each design of the front, and no other', () => {
    const front = Array.from(input.front.designs, String);
    expect([...dots(report.html)].sort()).toEqual([...front].sort());
    const rows = Array.from(report.html.matchAll(/<tr id="design-(\d+)"/g), ([, design]) => design);
    expect(rows).toEqual(front);
  });

  it('needs nothing from anywhere else', () => {
    const loaded = report.html.matchAll(/\b(?:src|href|action|data|srcset|poster)="([^"]*)"/g);
    expect(Array.from(loaded, ([, target]) => target!).filter((target) => !target.startsWith('#'))).toEqual(
      [],
    );
    expect(report.html).not.toMatch(/<(?:link|img|iframe|object|embed|base)\b|@import|url\(/);
    expect(report.html).not.toMatch(/ (?:style|on[a-z]+)="/);
  });

  it('leads every link to something on the page', () => {
    const ids = new Set(Array.from(report.html.matchAll(/ id="([^"]+)"/g), ([, id]) => id!));
    const targets = Array.from(report.html.matchAll(/href="#([^"]+)"/g), ([, id]) => id!);
    expect(targets.filter((id) => !ids.has(id))).toEqual([]);
  });

  it('uses each id once', () => {
    const ids = Array.from(report.html.matchAll(/ id="([^"]+)"/g), ([, id]) => id!);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
  });

  it('draws front, effects, maps, lift curves and every chosen rig, as files too', () => {
    const { chosen, front } = input;
    expect(report.figures.map(({ name }) => name)).toEqual([
      'front.svg',
      'effects-1.svg',
      'effects-2.svg',
      'ordered-1.svg',
      'ordered-2.svg',
      'map-1.svg',
      'map-2.svg',
      'lift.svg',
      'sensitivities.svg',
      ...chosen.flatMap(({ row, motion }) => (motion ? [`motion-${front.designs[row]}.svg`] : [])),
      ...chosen.flatMap(({ row, warming }) => (warming ? [`warm-${front.designs[row]}.svg`] : [])),
      ...chosen.map(({ row }) => `rig-${front.designs[row]}.svg`),
    ]);
    for (const { svg } of report.figures) expect(report.html.includes(svg)).toBe(true);
  });

  it('shows chosen designs switched on, each in a picture that plays when it is clicked and stands still for print', () => {
    const moving = input.chosen.filter(({ motion }) => motion !== null);
    expect(moving.length).toBeGreaterThan(0);
    for (const { row } of moving) {
      const design = input.front.designs[row]!;
      const picture = new RegExp(`<svg [^>]*id="moving${design}".*?</svg>`, 's').exec(report.html)![0];
      expect(picture).toContain(`begin="moving${design}.click" dur="3s"`);
      // a frame each 20 ms, and where it stands without them
      expect(/values="([^"]*)"/.exec(picture)![1]!.split(';').length).toBe(150);
      expect(picture).toMatch(/<g transform="translate\(0 -\d/);
    }
    expect(report.html).toContain('prefers-reduced-motion');
  });

  it('has the numbers of every chart in a table', () => {
    const figures = report.html.match(/<figure>/g)!.length;
    const tables = report.html.match(/<summary>Numbers of this/g)!.length;
    // the front's chart has the front's own table
    expect(figures - tables).toBe(1);
  });

  it('draws with no ink that a dark screen would not turn', () => {
    expect(unknownInks(report.figures)).toEqual([]);
  });

  it('tells the answer, the study, its hash, the versions and the time', () => {
    for (const sentence of input.answer) expect(report.html).toContain(sentence.split(/design \d+/)[0]!);
    const { study, provenance } = input;
    for (const text of [
      study.hash,
      provenance.version,
      provenance.node,
      provenance.started,
      '1.5 s on 2 threads',
    ]) {
      expect(report.html).toContain(text);
    }
    expect(report.html).toContain('coil.turns: {from: 300, to: 600, step: 10}');
  });
});

describe('a report of a calibrated study with tolerances', () => {
  let input: ReportInput;
  let report: Report;
  beforeAll(async () => {
    const place = new URL('../../studies/bench/', import.meta.url);
    const read = (name: string) => readFileSync(new URL(name, place));
    const named = fittedFile(read('next-design.yaml'))!;
    const whole = includeFitted(named, read('calibrated.yaml'));
    if ('problems' in whole) throw new Error(JSON.stringify(whole.problems));
    input = reportOn(studyFrom(whole.text));
    report = await buildReport(input);
  });
  const words = () => report.html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

  it('shows how each chosen design spreads, its probability, and what makes the spread', () => {
    expect(report.figures.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['spread.svg', 'shares.svg']),
    );
    expect(words()).toContain('Tolerances');
    expect(words().match(/of 256 such rigs \([\d.]+ %\) meet all limits/g)).toHaveLength(input.chosen.length);
    expect(words()).toContain('two thirds of it from the drive&#39;s current');
    const [spread, shares] = ['spread.svg', 'shares.svg'].map(
      (name) => report.figures.find((figure) => figure.name === name)!.svg,
    );
    // a bar for each design and quantity, besides two limits near
    const { profile } = input.chosen[0]!.spread!;
    expect(profile.quantities.length).toBe(5);
    expect(spread!.match(/stroke-width="3"/g)).toHaveLength(5 * input.chosen.length);
    expect(spread!.match(/stroke-dasharray="6,3"/g)).toHaveLength(2);
    // a mark for each tolerance, design and quantity, and one a design in the legend
    expect(input.allowed).toHaveLength(6);
    expect(shares!.match(/<path[^>]* fill="#7d3f06"/g)).toHaveLength(6 * 5 + 1);
  });

  it('says what was fitted, from which points, and how far it is from the drawing', () => {
    expect(words()).toContain(
      'fitted to the measured points of measured.csv, as calibrated.yaml keeps them.',
    );
    expect(words()).toContain('standoff 2 mm 2.839 mm ± 0.16 mm +42 %, 5.3 standard errors');
    expect(words()).toContain('aluminium-1050, resistivity fitted');
  });

  it('leads to both sections, and to neither where a study has nothing of it', async () => {
    for (const id of ['tolerances', 'calibration']) {
      expect(report.html).toContain(`<a href="#${id}">`);
      expect((await buildReport(reportOn(demo('plate-thickness')))).html).not.toContain(`id="${id}"`);
    }
  });

  it('has the numbers of every chart in a table, and no ink that a dark screen would not turn', () => {
    const figures = report.html.match(/<figure>/g)!.length;
    expect(figures - report.html.match(/<summary>Numbers of this/g)!.length).toBe(1);
    expect(unknownInks(report.figures)).toEqual([]);
  });
});

describe('a report', () => {
  it.runIf(whole)(
    'says how a long front and many designs are thinned, and stays under 5 MB for a million rows',
    async () => {
      const study = workshopStudy();
      // a front of 20,000 designs, and 980,000 that are not on it
      const front = Array.from(
        { length: 20_000 },
        (_, i): Row => ({
          values: [0, 320, study.vary[2]!.levels[0] as number],
          objectives: [i, i],
          quantities: {
            height: i,
            coil_mass: i,
            current: 12,
            voltage: 96,
            winding_height: 0.01,
            coil_outer_radius: 0.1,
            gap: 0.01,
          },
        }),
      );
      const beaten = front.map(
        (row): Row => ({ ...row, objectives: [row.objectives![0]! - 1, row.objectives![1]! + 1] }),
      );
      const missed = beaten.map((row): Row => ({ ...row, feasible: false, unmet: 1 }));
      const round = batchesOf(study, [...beaten, ...missed], [40_000])[0]!;
      const batches = [
        ...batchesOf(study, front, [20_000]),
        ...Array.from({ length: 24 }, (_, i) => ({ ...round, first: 20_000 + 40_000 * i })),
        { ...batchesOf(study, beaten, [20_000])[0]!, first: 980_000 },
      ];
      const input = reportOn(study, batches);
      expect(input.survey.designs).toBe(1_000_000);
      const { html, figures } = await buildReport(input);
      expect(html.length).toBeLessThan(5e6);
      const shown = dots(figures[0]!.svg).length;
      // a place to be spread to may fall on a design that is chosen anyway
      expect(Math.abs(shown - 1000)).toBeLessThan(5);
      expect(html).toContain(`${shown} of the 20,000 designs on the front, evenly spread along it.`);
      expect(html).toMatch(
        /feasible designs out of 520,000 as open marks in the colours of their metals and \d+ designs out of 480,000 that miss a limit as crosses/,
      );
      expect(html).toContain('Thinned for display by a fixed rule');
      expect(html).toContain('front.csv holds all 20,000');
    },
  );

  it('keeps text that would be markup or script as text, wherever it comes from', async () => {
    const bait =
      '</title></script></text></svg><script>alert(1)</script><img src=x onerror=alert(1)>"\' javascript:alert(1)';
    const { html, figures } = await buildReport(reportOn(studyFrom(hostileStudy(bait))));
    for (const text of [html, ...figures.map(({ svg }) => svg)]) {
      expect(text).not.toMatch(/<img|onerror=alert\(1\)>|<script>alert|href="javascript/);
    }
    // the page's own two and no other
    expect(html.match(/<script/g)).toHaveLength(2);
    expect(html.match(/<\/script/g)).toHaveLength(2);
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
  });

  it('says why a front is empty, and draws what there is', async () => {
    const study = demo('metal-and-turns');
    const limits = [{ ...study.limits[0]!, right: [{ op: 'constant' as const, value: 1e3 }] }];
    const none = { ...study, limits };
    const { html, figures } = await buildReport(reportOn(none, evaluated(none)));
    expect(html).toContain('The front is empty: no design of 1488 meets every limit.');
    expect(dots(html)).toEqual([]);
    expect(figures.map(({ name }) => name)).toContain('front.svg');
    expect(figures.some(({ name }) => name.startsWith('rig-'))).toBe(false);
  });

  it('does without a chart of the front where there is one objective', async () => {
    const study = demo('plate-thickness');
    const single = { ...study, objectives: study.objectives.slice(0, 1) };
    const { html, figures } = await buildReport(reportOn(single, evaluated(single)));
    expect(figures.some(({ name }) => name.startsWith('front'))).toBe(false);
    expect(html.match(/<tr id="design-/g)).toHaveLength(1);
  });
});
