import { type Columns, createScratch, evaluateProgram, meets } from '../expression/evaluate-program.ts';
import { unitOf } from '../expression/limit-margin.ts';
import { paretoFront } from '../front/pareto-front.ts';
import type { Comparison } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { column, type RowBatch } from '../model/rows.ts';
import { isEvaluated, STATUS } from '../model/status.ts';
import { UNITS, type Unit } from '../model/units.ts';
import { createDesignReader } from '../rig/design.ts';
import type { LiveStudy } from './live-data.ts';

/** A column that an axis may be. SI. */
export interface FrontAxis {
  readonly label: string;
  readonly unit: Unit;
  readonly cells: Float64Array;
  /** What the cells stand for where they are choices: the names by number. */
  readonly words?: readonly string[];
}

/** A limit whose bound can be dragged. */
export interface Handle {
  /** `height >=` */
  readonly text: string;
  readonly comparison: Comparison;
  readonly unit: Unit;
  readonly cells: Float64Array;
  /** Of the study's limits which; null: one of the page's own. */
  readonly index: number | null;
  readonly bound: number;
  /** Of the cells and the bound. */
  readonly low: number;
  readonly high: number;
}

export interface FoundFront {
  /** Rows that meet every limit, and those of them that no other dominates. */
  readonly feasible: readonly number[];
  readonly front: readonly number[];
}

export interface DesignsFront {
  readonly count: number;
  /** Every column with more than one number in it: objectives, inputs, derived quantities, quantities. */
  readonly axes: readonly FrontAxis[];
  readonly objectives: readonly FrontAxis[];
  /** What the study varies, choices too. */
  readonly inputs: readonly FrontAxis[];
  /** The study's limits with a number on their right. */
  readonly handles: readonly Handle[];
  /** A limit on a column that has none, as loose as it can be. */
  handleOn(axis: FrontAxis, comparison: '<=' | '>='): Handle;
  find(handles: readonly Handle[], bounds: readonly number[]): FoundFront;
}

export function designsFront(study: LiveStudy, rows: RowBatch): DesignsFront {
  const { count } = rows;
  const columns = columnsOf(study, rows);
  const scratch = createScratch();
  const run = (program: Parameters<typeof evaluateProgram>[0]): Float64Array => {
    const out = new Float64Array(count);
    evaluateProgram(program, columns, out, scratch);
    return out;
  };
  const sides = study.limits.map(({ left, right }) => ({ left: run(left), right: run(right) }));
  const handles = study.limits.flatMap((limit, index): Handle[] => {
    const only = limit.right.length === 1 ? limit.right[0]! : null;
    if (only?.op !== 'constant' || limit.implied) return [];
    const [text] = limit.text.split(limit.comparison);
    return [
      {
        text: `${text!.trim()} ${limit.comparison}`,
        comparison: limit.comparison,
        unit: unitOf(limit.left, study.derive) ?? UNITS.one,
        cells: sides[index]!.left,
        index,
        bound: only.value,
        ...endsOf([...sides[index]!.left, only.value]),
      },
    ];
  });
  const answered = (row: number) => isEvaluated(rows.status[row]!);
  const objectives = objectiveAxes(study, rows);
  const inputs = inputAxes(study, rows);

  function find(now: readonly Handle[], bounds: readonly number[]): FoundFront {
    const fixed = study.limits.flatMap((limit, l) =>
      now.some(({ index }) => index === l) ? [] : [{ limit, l }],
    );
    const feasible: number[] = [];
    for (let row = 0; row < count; row++) {
      const isMet =
        fixed.every(({ limit: { comparison, implied }, l }) => {
          const { left, right } = sides[l]!;
          return (implied && Number.isNaN(left[row]!)) || meets(comparison, left[row]!, right[row]!);
        }) && now.every(({ comparison, cells }, h) => meets(comparison, cells[row]!, bounds[h]!));
      if (answered(row) && isMet) feasible.push(row);
    }
    if (feasible.length === 0 || objectives.length === 0) return { feasible, front: [] };
    // a design that rests only where none floats
    const floating = feasible.filter((row) => rows.status[row] !== STATUS.rests);
    const judged = floating.length > 0 ? floating : feasible;
    const found = paretoFront(
      objectives.map(({ cells }) => Float64Array.from(judged, (row) => cells[row]!)),
      study.objectives.map(({ sense }) => sense),
    );
    return { feasible, front: [...found].map((at) => judged[at]!) };
  }

  return {
    count,
    axes: [...objectives, ...inputs, ...derivedAxes(study, rows), ...quantityAxes(rows)].filter(
      ({ cells }) => new Set(cells.filter(Number.isFinite)).size > 1,
    ),
    objectives,
    inputs,
    handles,
    handleOn({ label, unit, cells }, comparison) {
      const ends = endsOf([...cells]);
      const bound = comparison === '<=' ? ends.high : ends.low;
      const words = comparison === '<=' ? 'at most' : 'at least';
      return { text: `${label} ${words}`, comparison, unit, cells, index: null, bound, ...ends };
    },
    find,
  };
}

function endsOf(values: readonly number[]): { low: number; high: number } {
  const known = values.filter(Number.isFinite);
  return { low: Math.min(...known), high: Math.max(...known) };
}

function columnsOf(study: LiveStudy, rows: RowBatch): Columns {
  const { count, values } = rows;
  const inputs = new Map<number, Float64Array>();
  const reader = createDesignReader(study);
  return {
    count,
    quantity: (index) => column(rows, rows.quantities, index),
    derived: (index) => column(rows, rows.derived, index),
    input(slot) {
      const known =
        inputs.get(slot) ??
        Float64Array.from({ length: count }, (_, row) => {
          reader.read(values, row * study.vary.length);
          return reader.slots[slot]!;
        });
      inputs.set(slot, known);
      return known;
    },
  };
}

function objectiveAxes({ objectives }: LiveStudy, rows: RowBatch): FrontAxis[] {
  return objectives.map(({ text, unit }, o) => ({
    label: text,
    unit,
    cells: column(rows, rows.objectives, o),
  }));
}

function inputAxes({ vary }: LiveStudy, { count, values }: RowBatch): FrontAxis[] {
  return vary.map((each, v): FrontAxis => {
    const cells = Float64Array.from({ length: count }, (_, row) => values[row * vary.length + v]!);
    const label = shortMeaning(each.meaning);
    if (each.kind === 'number') return { label, unit: each.unit, cells };
    return { label, unit: UNITS.one, cells, words: each.levels.map((level) => level.label) };
  });
}

/** `thickness of the plate` of a meaning that goes on to explain itself. */
function shortMeaning(meaning: string): string {
  return meaning.split(/[;:,(]/)[0]!.trim();
}

function derivedAxes({ derive }: LiveStudy, rows: RowBatch): FrontAxis[] {
  return derive.map(({ name, unit }, d) => ({ label: name, unit, cells: column(rows, rows.derived, d) }));
}

function quantityAxes(rows: RowBatch): FrontAxis[] {
  const columns = rows.quantities.length / rows.count;
  return QUANTITIES.filter(({ index, words }) => index < columns && words.length === 0).map(
    ({ label, unit, index }) => ({ label, unit, cells: column(rows, rows.quantities, index) }),
  );
}
