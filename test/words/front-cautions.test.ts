import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CAUTIONS_REMINDER } from '../../src/model/cautions/judge.ts';
import type { TableRows } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { frontCautions } from '../../src/words/front-cautions.ts';
import { PROJECT } from '../support/source-files.ts';

const source = readFileSync(join(PROJECT, 'studies/metal-and-turns.yaml'));

/** Aluminium, 440 turns in 8 layers at these currents, A, as a front with ids from 7 on. */
function frontOf(currents: readonly number[], text = source.toString()): { study: Study; front: TableRows } {
  const reading = readStudy(new TextEncoder().encode(text), { allowHuge: false });
  if ('problems' in reading) throw new Error('the study has problems');
  const { study } = reading;
  const values = Float64Array.from(currents.flatMap((current) => [0, 440, 8, current]));
  const rows = createEvaluator(study)({ first: 7, count: currents.length, values });
  const designs = Float64Array.from(currents, (_, i) => 7 + i);
  return { study, front: { ...rows, designs, onFront: new Uint8Array(currents.length).fill(1) } };
}

describe('the cautions after the findings of a run', () => {
  it('are a line a hazard, shock first, each caution once with the designs that raise it, and close with who decides', () => {
    const { study, front } = frontOf([8, 12]);
    const lines = frontCautions(study, front, { extremes: [0, 1], knee: 1 });
    expect(lines[0]).toMatch(/^Cautions for designs 7, 8;/);
    expect(lines[1]).toMatch(
      /^- electric shock: more than 50 V ac \(design 8\); not isolated from the mains; /,
    );
    const found = lines.slice(1, -1).flatMap((line) => line.replace(/^- [^:]*: /, '').split('; '));
    expect(new Set(found).size).toBe(found.length);
    // 8 A keep it on the plate even when switched on at once
    expect(found).toContain('jumps when switched on at full voltage (design 8)');
    // both raise it
    expect(found).toContain('not held sideways');
    expect(lines.at(-1)).toBe(CAUTIONS_REMINDER);
  });

  it('say in one line what is missing to judge the rest', () => {
    const { study, front } = frontOf([12]);
    const lines = frontCautions(study, front, { extremes: [0], knee: 0 });
    expect(lines.at(-2)).toBe(
      '- not judged: no `line_voltage` given; no `plate.radius` given; no `fuse` given; no `headroom` given; no `visitor_distance` given; no `operator_distance` given',
    );
  });

  it('are the reminder and what could not be judged where nothing is raised', () => {
    const calm = source
      .toString()
      .replace('floats: coil', 'floats: nothing')
      .replace('standoff: 2 mm', 'standoff: {thickness: 2 mm, breakdown: 15 kV/mm}')
      .replace(/line_voltage: 230 V, /, '')
      .replace('frequency: 50 Hz', 'frequency: 30 Hz');
    const { study, front } = frontOf([0.1], calm);
    const lines = frontCautions(study, front, { extremes: [0], knee: 0 });
    expect(lines).toHaveLength(3);
    expect(lines[1]).toMatch(/^- not judged: no `line_voltage` given; /);
    expect(lines[2]).toBe(CAUTIONS_REMINDER);
  });
});
