import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createRandom, type Random } from '../../src/math/random.ts';
import { STATUS } from '../../src/model/status.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { nightly } from '../support/nightly.ts';

const STUDIES = nightly ? 1100 : 60;
const FOYER = readFileSync(new URL('../fixtures/foyer-table.yaml', import.meta.url), 'utf8');

/** What people, editors and enemies put where a number or a name belongs. */
const VALUES = [
  '0',
  '-1',
  '1e308 m',
  '1e-300 mm',
  '.nan',
  '.inf',
  '-.inf',
  'null',
  '~',
  '[]',
  '{}',
  '""',
  'constructor',
  '__proto__',
  'toString',
  '*alias',
  '&anchor 1',
  '!!binary aGk=',
  '"\\u0000"',
  '"\\u202e"',
  '9'.repeat(400),
  "'=cmd|calc'",
  'height <= height',
  '0x10',
  '1_000',
  `[${'1, '.repeat(20_000)}1]`,
  '{from: 1 mm, to: 2 mm, count: 1000001}',
  '{from: 1 mm, to: 1 mm, step: 0}',
  '"1 / 0"',
  `"${'('.repeat(3000)}"`,
  '[[[[[[[[[[1]]]]]]]]]]',
];

/** One to four damages to a sound study. */
function damaged(random: Random): string {
  const lines = FOYER.split('\n');
  const line = () => random.below(lines.length);
  for (let n = 1 + random.below(4); n > 0; n--) {
    const at = line();
    const value = VALUES[random.below(VALUES.length)]!;
    switch (random.below(7)) {
      case 0:
        lines[at] = lines[at]!.replace(/:.*$/, () => `: ${value}`);
        break;
      case 1:
        lines[at] = lines[at]!.replace(/[\d.]+/, () => value);
        break;
      case 2:
        lines.splice(at, 1);
        break;
      case 3:
        lines.splice(at, 0, lines[line()]!);
        break;
      case 4:
        lines[at] = `${'\t '[random.below(2)]}${lines[at]}`;
        break;
      case 5: {
        const text = lines[at]!;
        const cut = random.below(text.length + 1);
        lines[at] = text.slice(0, cut) + String.fromCharCode(random.below(0x2100)) + text.slice(cut + 1);
        break;
      }
      default:
        lines[at] = lines[at]!.replace(/\w+(?=:)/, () => value.slice(0, 40));
    }
  }
  return lines.join('\n');
}

describe('hostile studies', () => {
  it(
    `are refused with problems that can be printed, or computed: ${STUDIES} of them`,
    () => {
      const random = createRandom(20260115, 0);
      let refused = 0;
      for (let n = 0; n < STUDIES; n++) {
        const text = damaged(random);
        const reading = readStudy(text);
        if ('problems' in reading) {
          refused++;
          expect(reading.problems.length).toBeGreaterThan(0);
          expect(reading.problems.length).toBeLessThanOrEqual(51);
          const drawn = drawProblems('study.yaml', text, reading.problems);
          // nothing that moves a terminal's cursor or turns its text around
          // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
          expect(drawn).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
          continue;
        }
        const sample = createPlan(reading.study).sample(4);
        const { status, quantities } = createEvaluator(reading.study)(sample);
        for (const code of status) expect(Object.values(STATUS)).toContain(code);
        expect(quantities).not.toContain(Number.NEGATIVE_INFINITY);
      }
      // both ways are met
      expect(refused).toBeGreaterThan(STUDIES / 4);
      expect(refused).toBeLessThan(STUDIES);
    },
    nightly ? 1_200_000 : 600_000,
  );
});
