import { describe, expect, it } from 'vitest';
import { Q, QUANTITIES } from '../../src/model/quantities.ts';
import { tableColumns } from '../../src/model/table-columns.ts';
import { markFront } from '../../src/store/front-rows.ts';
import { batchOf, workshopStudy } from '../support/batches.ts';

const study = workshopStudy();

function cells(name: string, row: Parameters<typeof batchOf>[1][number]): number {
  const column = tableColumns(study).find((candidate) => candidate.name === name)!;
  const into = new Float64Array(1);
  column.fill(markFront(batchOf(study, [row], 7), []), 0, 1, into, 0);
  return into[0]!;
}

describe('tableColumns', () => {
  it('names the columns in the order of the contract: id, inputs, verdict, quantities, derived, front', () => {
    expect(tableColumns(study).map(({ name }) => name)).toEqual([
      'design',
      'coil_metal',
      'coil_turns',
      'plate_thickness_mm',
      'status',
      'reason',
      'feasible',
      ...QUANTITIES.filter(({ effort }) => effort === 0).map(({ column }) => column),
      'height_per_ampere_mm_per_A',
      'on_front',
    ]);
  });

  it('drops the quantities and derived quantities that `keep` does not name, and nothing else', () => {
    const names = tableColumns(workshopStudy({ keep: ['height', 'liftoff_current'] })).map(
      ({ name }) => name,
    );
    expect(names.slice(7)).toEqual(['liftoff_current_A', 'height_mm', 'on_front']);
    expect(
      tableColumns(workshopStudy({ keep: ['height_per_ampere'] }))
        .map(({ name }) => name)
        .slice(7),
    ).toEqual(['height_per_ampere_mm_per_A', 'on_front']);
  });

  it('has a quantity on request where the study names it, and where `keep` lets it', () => {
    const requested = [Q.bounce_growth];
    const names = tableColumns(workshopStudy({ requested })).map(({ name }) => name);
    expect(names.filter((name) => name.startsWith('bounce_growth'))).toEqual(['bounce_growth_1_per_s']);
    expect(names).not.toContain('guide_damping_N_s_per_m');
    expect(names.length).toBe(tableColumns(study).length + 1);
    const kept = tableColumns(workshopStudy({ requested, keep: ['height'] })).map(({ name }) => name);
    expect(kept.slice(7)).toEqual(['height_mm', 'on_front']);
  });

  it('writes an input as the study wrote it, not as its SI value rounds', () => {
    // A level of the study, and a value between levels as a search would try.
    expect(0.000123 * 1e3).not.toBe(0.123);
    expect(cells('plate_thickness_mm', { values: [0, 320, 0.000123] })).toBe(0.123);
    expect(0.000246 * 1e3).not.toBe(0.246);
    expect(cells('plate_thickness_mm', { values: [0, 320, 0.000246] })).toBe(0.246);
  });

  it('converts quantities and derived quantities to their units', () => {
    expect(cells('height_mm', { quantities: { height: 0.25 } })).toBe(250);
    expect(cells('height_per_ampere_mm_per_A', { derived: [0.5] })).toBe(500);
    expect(cells('height_mm', {})).toBeNaN();
  });

  it('never yields -0', () => {
    expect(Object.is(cells('height_mm', { quantities: { height: -0 } }), 0)).toBe(true);
    expect(Object.is(cells('plate_thickness_mm', { values: [0, 320, -0] }), 0)).toBe(true);
  });
});
