import { type Columns, createScratch, evaluateProgram, meets } from '../expression/evaluate-program.ts';
import { unitOf } from '../expression/limit-margin.ts';
import { paretoFront } from '../front/pareto-front.ts';
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
}

/** A limit of the study whose bound can be dragged. */
export interface Handle {
  /** `height >=` */
  readonly text: string;
  readonly unit: Unit;
  readonly cells: Float64Array;
  readonly bound: number;
  /** Of the cells and the bound. */
  readonly low: number;
  readonly high: number;
}

export interface DesignsFront {
  readonly axes: readonly FrontAxis[];
  readonly handles: readonly Handle[];
  /** Rows that meet every limit, and those of them that no other dominates. */
  find(bounds: readonly number[]): {
    readonly feasible: readonly number[];
    readonly front: readonly number[];
  };
}

export function designsFront(study: LiveStudy, rows: RowBatch): DesignsFront {
  const { count, values } = rows;
  const width = study.vary.length;
  const columns = columnsOf(study, rows);
  const scratch = createScratch();
  const run = (program: Parameters<typeof evaluateProgram>[0]): Float64Array => {
    const out = new Float64Array(count);
    evaluateProgram(program, columns, out, scratch);
    return out;
  };
  const sides = study.limits.map(({ left, right }) => ({ left: run(left), right: run(right) }));
  const movable = study.limits.flatMap((limit, index) => {
    const only = limit.right.length === 1 ? limit.right[0]! : null;
    return only?.op === 'constant' && !limit.implied ? [{ limit, index, bound: only.value }] : [];
  });
  const handles = movable.map(({ limit, index, bound }): Handle => {
    const cells = sides[index]!.left;
    const known = [...cells, bound].filter(Number.isFinite);
    const [text] = limit.text.split(limit.comparison);
    return {
      text: `${text!.trim()} ${limit.comparison}`,
      unit: unitOf(limit.left, study.derive) ?? UNITS.one,
      cells,
      bound,
      low: Math.min(...known),
      high: Math.max(...known),
    };
  });
  const answered = (row: number) => isEvaluated(rows.status[row]!);
  return {
    axes: axesOf(study, rows, width, values),
    handles,
    find(bounds) {
      const feasible: number[] = [];
      for (let row = 0; row < count; row++) {
        const isMet = study.limits.every(({ comparison, implied }, l) => {
          const at = movable.findIndex(({ index }) => index === l);
          const { left, right } = sides[l]!;
          return (
            (implied && Number.isNaN(left[row]!)) ||
            meets(comparison, left[row]!, at < 0 ? right[row]! : bounds[at]!)
          );
        });
        if (answered(row) && isMet) feasible.push(row);
      }
      if (feasible.length === 0 || study.objectives.length === 0) return { feasible, front: [] };
      // a design that rests only where none floats
      const floating = feasible.filter((row) => rows.status[row] !== STATUS.rests);
      const judged = floating.length > 0 ? floating : feasible;
      const objectives = study.objectives.map((_, o) => {
        const cells = column(rows, rows.objectives, o);
        return Float64Array.from(judged, (row) => cells[row]!);
      });
      const found = paretoFront(
        objectives,
        study.objectives.map(({ sense }) => sense),
      );
      return { feasible, front: [...found].map((at) => judged[at]!) };
    },
  };
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

/** Objectives first, then what varies, then every quantity that is not the same in all rows. */
function axesOf(study: LiveStudy, rows: RowBatch, width: number, values: Float64Array): FrontAxis[] {
  const { count } = rows;
  const objectives = study.objectives.map(({ text, unit }, o) => ({
    label: text,
    unit,
    cells: column(rows, rows.objectives, o),
  }));
  const varied = study.vary.flatMap((each, v) =>
    each.kind === 'number'
      ? [
          {
            label: each.meaning,
            unit: each.unit,
            cells: Float64Array.from({ length: count }, (_, row) => values[row * width + v]!),
          },
        ]
      : [],
  );
  const columns = rows.quantities.length / count;
  const quantities = QUANTITIES.filter(({ index, words }) => index < columns && words.length === 0).map(
    ({ label, unit, index }) => ({ label, unit, cells: column(rows, rows.quantities, index) }),
  );
  return [...objectives, ...varied, ...quantities].filter(
    ({ cells }) => new Set(cells.filter(Number.isFinite)).size > 1,
  );
}
