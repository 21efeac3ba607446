import { describe, expect, it } from 'vitest';
import { inputByPath } from '../../src/model/inputs.ts';
import { REASONS } from '../../src/model/status.ts';
import type { VariedNumber } from '../../src/model/study.ts';
import { createGrid } from '../../src/plan/grid.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { builtOf, noPossibleDesign } from '../../src/run/no-possible-design.ts';
import { FOYER, slotsOf } from '../support/design.ts';

function axis(path: string, from: number, to: number, count: number): VariedNumber {
  const { slot, name, unit, meaning } = inputByPath(path)!;
  const levels = Float64Array.from({ length: count }, (_, i) => from + (i * (to - from)) / (count - 1));
  return { kind: 'number', path, name, column: name, unit, slot, meaning, integer: false, levels };
}

/** What is asked of a grid, and how many batches of it were looked at. */
async function look(vary: readonly VariedNumber[]) {
  const rig = { slots: slotsOf(FOYER), plateLayers: 1, windings: 0, texts: {} };
  const grid = createGrid(vary);
  let batches = 0;
  const plan: Plan = {
    ...grid,
    get done() {
      return grid.done;
    },
    next() {
      batches++;
      return grid.next();
    },
  };
  const task = { rig, vary, derive: [], limits: [], objectives: [] };
  const code = await noPossibleDesign(task, plan, new AbortController().signal);
  return { reason: code === null ? null : REASONS[code]!.key, batches };
}

const current = axis('drive.current', 1, 20, 100_000);

describe('noPossibleDesign', () => {
  it('looks all over a grid whose first designs are all impossible', async () => {
    // a bore of millimetres to metres: only some above 2 mm can be built
    const bores = axis('coil.inner_radius', 1e-3, 0.1, 100);
    expect(await look([bores, current])).toEqual({ reason: null, batches: 1 });
  });

  it('gives up looking where a grid goes on and on', async () => {
    const wide = axis('coil.inner_radius', 3, 10, 1_000_000);
    const { reason, batches } = await look([wide, axis('standoff', 0.001, 0.002, 1000)]);
    expect(reason).toBeNull();
    expect(batches).toBeLessThan(300);
  });

  it('names the reason of a grid in which nothing can be built, without trying its currents', async () => {
    const wide = axis('coil.inner_radius', 3, 10, 200);
    const grid = [current, wide];
    expect(await look(builtOf(grid) as VariedNumber[])).toEqual({ reason: 'outsideRange', batches: 13 });
  });
});
