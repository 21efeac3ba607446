import { beforeAll, describe, expect, it } from 'vitest';
import { axisScale } from '../../src/live/axis-scale.ts';
import { type DesignsFront, designsFront } from '../../src/live/designs-front.ts';
import { parallelAxes } from '../../src/live/parallel-axes.ts';
import { scatterChart } from '../../src/live/scatter-chart.ts';
import { joinBatches } from '../../src/model/row-batches.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { demoStudy } from './rigs.ts';

const study = demoStudy('metal-and-turns');
const NONE = { loaded: -1, looked: -1, selected: new Set<number>(), brush: null };
let front: DesignsFront;

beforeAll(() => {
  const plan = createPlan(study);
  const evaluate = createEvaluator(study);
  const batches: RowBatch[] = [];
  for (let work = plan.next(); work && !('from' in work); work = plan.next()) batches.push(evaluate(work));
  front = designsFront(study, joinBatches(batches));
});

describe('columns of designs', () => {
  it('are objectives, what varies, derived quantities and quantities, each once and none without a difference', () => {
    const labels = front.axes.map(({ label }) => label);
    for (const label of ['height / current', 'coil_mass', 'turns', 'height_per_ampere', 'power'])
      expect(labels).toContain(label);
    for (const { cells } of front.axes)
      expect(new Set(cells.filter(Number.isFinite)).size).toBeGreaterThan(1);
    expect(front.inputs.map(({ label }) => label)).toEqual([
      'metal of the conductor',
      'turns',
      'flat spirals stacked along the axis',
      'coil current',
    ]);
    expect(front.inputs[0]!.words).toEqual(['aluminium', 'copper']);
  });

  it('may each be given a limit, which lets everything through at its loosest', () => {
    const { handles } = front;
    const bounds = handles.map(({ bound }) => bound);
    const own = front.find(handles, bounds);
    expect(own.front.length).toBeGreaterThan(0);
    const power = front.axes.find(({ label }) => label === 'power')!;
    for (const comparison of ['<=', '>='] as const) {
      const more = front.handleOn(power, comparison);
      expect(front.find([...handles, more], [...bounds, more.bound])).toEqual(own);
      const middle = (more.low + more.high) / 2;
      const tight = front.find([...handles, more], [...bounds, middle]);
      const meets = (row: number) =>
        comparison === '<=' ? power.cells[row]! <= middle : power.cells[row]! >= middle;
      expect(tight.feasible).toEqual(own.feasible.filter(meets));
    }
    // without a handle a limit of the study still holds
    expect(front.find([], []).feasible).toEqual(own.feasible);
  });
});

describe('an axis', () => {
  it('has round numbers within its ends, or its words', () => {
    const cells = Float64Array.of(0.3, Number.NaN, 9.7);
    const { share, ticks } = axisScale({ label: 'x', unit: front.axes[1]!.unit, cells });
    expect([share(0), share(1), share(2)]).toEqual([0, Number.NaN, 1]);
    expect(ticks.map(({ text }) => text)).toEqual(['2', '4', '6', '8']);
    expect(axisScale(front.inputs[0]!).ticks).toEqual([
      { share: 0, text: 'aluminium' },
      { share: 1, text: 'copper' },
    ]);
    expect(axisScale({ ...front.inputs[1]!, cells: Float64Array.of(3, 3) }).share(0)).toBe(0.5);
  });
});

describe('charts of designs', () => {
  it('find the design at a place and those in a box', () => {
    const { feasible } = front.find([], []);
    const chart = scatterChart(front.axes[1]!, front.axes[0]!, feasible);
    const path = /M([\d.]+) ([\d.]+)h0/.exec(chart.markup({ feasible, front: [] }, NONE))!;
    const at = [Number(path[1]), Number(path[2])] as const;
    expect(chart.distance(feasible[0]!, at)).toBeLessThan(0.2);
    const around = { from: [at[0] - 2, at[1] + 2], to: [at[0] + 2, at[1] - 2] } as const;
    expect(chart.takes(feasible[0]!, around)).toBe(true);
    expect(chart.takes(feasible[0]!, { from: at, to: [at[0] - 9, at[1] - 9] })).toBe(
      chart.takes(feasible[0]!, { from: [at[0] - 9, at[1] - 9], to: at }),
    );
    expect(feasible.filter((row) => chart.takes(row, { from: [0, 0], to: [1000, 1000] }))).toEqual(feasible);
  });

  it('side by side take the designs whose lines pass a box on an axis', () => {
    const chart = parallelAxes(front.inputs);
    const all = front.find([], []).feasible;
    const [metal, turns] = front.inputs;
    const most = all.reduce((a, b) => Math.max(a, turns!.cells[b]!), 0);
    const top = { from: [325, 40], to: [335, 45] } as const;
    const taken = all.filter((row) => chart.takes(row, top));
    expect(taken.every((row) => turns!.cells[row]! >= most - 1)).toBe(true);
    expect(all.filter((row) => chart.takes(row, { from: [300, 0], to: [301, 300] }))).toEqual([]);
    expect(chart.distance(all[0]!, [70, metal!.cells[all[0]!]! === 0 ? 286 : 44])).toBeLessThan(1);
  });
});
