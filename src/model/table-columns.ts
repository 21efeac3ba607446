import type { Derived } from './program.ts';
import { FRAME, QUANTITIES } from './quantities.ts';
import type { TableRows } from './rows.ts';
import { REASONS, STATUSES } from './status.ts';
import type { Study, Varied, VariedChoice, VariedNumber } from './study.ts';
import { inputToUnit, UNITS, type Unit } from './units.ts';

/**
 * What a column of a study's tables is and how its cells come out of rows. CSV, Parquet, CSVW metadata, the
 * terminal and the report all read this one definition.
 */
export interface TableColumn {
  readonly name: string;
  /** For people: `lift-off current`. */
  readonly label: string;
  readonly kind: 'integer' | 'number' | 'text' | 'boolean';
  /** UNITS.one where there is none. */
  readonly unit: Unit;
  readonly meaning: string;
  /** False: no cell is ever empty. */
  readonly nullable: boolean;
  /** Texts by code; '' is the empty cell. Empty unless the kind is text. */
  readonly texts: readonly string[];
  /**
   * Writes the cells of rows [from, to) to `into`, starting at `at`: numbers in `unit`, NaN for an empty
   * cell, codes of `texts` for text, 0 and 1 for booleans.
   */
  readonly fill: (rows: TableRows, from: number, to: number, into: Float64Array, at: number) => void;
}

type Fill = TableColumn['fill'];

function copied(pick: (rows: TableRows) => ArrayLike<number>): Fill {
  return (rows, from, to, into, at) => {
    const source = pick(rows);
    for (let i = from; i < to; i++) into[at + i - from] = source[i]!;
  };
}

function converted(pick: (rows: TableRows) => Float64Array, index: number, unit: Unit): Fill {
  return (rows, from, to, into, at) => {
    const source = pick(rows);
    const start = index * rows.count + from - at;
    // as toUnit: its fields are read once, not for each cell
    const { scale, offset } = unit;
    const end = at + to - from;
    for (let i = at; i < end; i++) into[i] = source[start + i]! * scale + offset;
  };
}

function frame(
  name: keyof typeof FRAME,
  kind: TableColumn['kind'],
  fill: Fill,
  texts: readonly string[] = [],
): TableColumn {
  const nullable = texts.includes('');
  return {
    name,
    label: name.replace('_', ' '),
    kind,
    unit: UNITS.one,
    meaning: FRAME[name],
    nullable,
    texts,
    fill,
  };
}

/** Of equal values that follow one another one is converted: of a grid's slower inputs, nearly none. */
function inputCells({ unit }: VariedNumber, index: number, width: number): Fill {
  return (rows, from, to, into, at) => {
    let last = Number.NaN;
    let cell = Number.NaN;
    for (let i = from; i < to; i++) {
      const si = rows.values[i * width + index]!;
      if (si !== last) {
        last = si;
        cell = inputToUnit(si, unit);
      }
      into[at + i - from] = cell;
    }
  };
}

function choiceCells(index: number, width: number): Fill {
  return (rows, from, to, into, at) => {
    for (let i = from; i < to; i++) into[at + i - from] = rows.values[i * width + index]!;
  };
}

/** A quantity that stands for a word; an empty cell is the word past the last. */
function wordCells(index: number, empty: number): Fill {
  return (rows, from, to, into, at) => {
    const start = index * rows.count;
    for (let i = from; i < to; i++) {
      const code = rows.quantities[start + i]!;
      into[at + i - from] = Number.isNaN(code) ? empty : code;
    }
  };
}

/** The rows of a start follow one another, and every row after the first start's first belongs to one. */
function startColumns(startRows: Float64Array): TableColumn[] {
  const startOf = (design: number) => {
    let low = 0;
    let high = startRows.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (startRows[middle]! <= design) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  };
  const filled =
    (cell: (design: number, start: number) => number): Fill =>
    (rows, from, to, into, at) => {
      for (let i = from; i < to; i++) {
        const design = rows.designs[i]!;
        const start = startOf(design);
        into[at + i - from] = start < 0 ? Number.NaN : cell(design, start);
      }
    };
  return [
    {
      ...frame(
        'start',
        'integer',
        filled((_, start) => start),
      ),
      nullable: true,
    },
    {
      ...frame(
        'step',
        'integer',
        filled((design, start) => design - startRows[start]!),
      ),
      nullable: true,
    },
  ];
}

function variedColumn(varied: Varied, index: number, width: number): TableColumn {
  const shared = { name: varied.column, label: words(varied.name), meaning: varied.meaning };
  return varied.kind === 'choice'
    ? {
        ...shared,
        kind: 'text',
        unit: UNITS.one,
        nullable: false,
        texts: labels(varied),
        fill: choiceCells(index, width),
      }
    : {
        ...shared,
        kind: varied.integer ? 'integer' : 'number',
        unit: varied.unit,
        nullable: true,
        texts: [],
        fill: inputCells(varied, index, width),
      };
}

function labels(varied: VariedChoice): string[] {
  return varied.levels.map((level) => level.label);
}

function words(name: string): string {
  return name.replaceAll('_', ' ');
}

function derivedColumn(derived: Derived, index: number): TableColumn {
  return {
    name: derived.column,
    label: words(derived.name),
    kind: 'number',
    unit: derived.unit,
    meaning: derived.text,
    nullable: true,
    texts: [],
    fill: converted((rows) => rows.derived, index, derived.unit),
  };
}

/**
 * The columns of a study's tables, in table order. `keep` drops quantities and derived ones only. `startRows`: the id
 * of the first row of each start, ascending, where the study descends.
 */
export function tableColumns(
  study: Pick<Study, 'vary' | 'derive' | 'keep' | 'requested'>,
  startRows: Float64Array | null = null,
): readonly TableColumn[] {
  const kept = study.keep && new Set(study.keep);
  const isKept = ({ name }: { name: string }) => kept === null || kept.has(name);
  return [
    frame(
      'design',
      'integer',
      copied((rows) => rows.designs),
    ),
    ...(startRows === null ? [] : startColumns(startRows)),
    ...study.vary.map((varied, index) => variedColumn(varied, index, study.vary.length)),
    frame(
      'status',
      'text',
      copied((rows) => rows.status),
      STATUSES,
    ),
    frame(
      'reason',
      'text',
      copied((rows) => rows.reason),
      REASONS.map(({ text }) => text),
    ),
    frame(
      'feasible',
      'boolean',
      copied((rows) => rows.feasible),
    ),
    ...QUANTITIES.filter(
      (quantity) => isKept(quantity) && (quantity.effort === 0 || study.requested?.includes(quantity.index)),
    ).map(
      ({ column, label, unit, meaning, index, words }): TableColumn => ({
        name: column,
        label,
        kind: words.length > 0 ? 'text' : 'number',
        unit,
        meaning,
        nullable: true,
        texts: words.length > 0 ? [...words, ''] : [],
        fill:
          words.length > 0
            ? wordCells(index, words.length)
            : converted((rows) => rows.quantities, index, unit),
      }),
    ),
    ...study.derive.flatMap((derived, index) => (isKept(derived) ? [derivedColumn(derived, index)] : [])),
    frame(
      'on_front',
      'boolean',
      copied((rows) => rows.onFront),
    ),
  ];
}
