import * as z from 'zod';
import { DOCUMENT_FORMAT } from './document-format.ts';

// What commands print with --json: the shapes that `documents.schema.json` is made of, and the types that the commands
// are held to. Past 300 lines: one shape a command.

/** JSON knows neither NaN nor infinity: null is an empty cell, `INF` infinite. */
const cell = z
  .union([z.number(), z.enum(['INF', '-INF']), z.null()])
  .meta({ id: 'cell', description: 'a number; null: not applicable or not known; INF: infinite' });
const value = z
  .union([z.number(), z.string(), z.null()])
  .meta({ id: 'value', description: 'a number or a word; null: not applicable or not known; INF: infinite' });
const count = z.int().nonnegative();
const text = z.string();
const byColumn = (description: string) => z.record(text, value).meta({ description });

const problem = z
  .object({
    severity: z.enum(['error', 'warning']),
    message: text.meta({ description: 'what was found and what is wanted, or what went wrong' }),
    file: text.nullable().meta({ description: 'a file, or the option that the text was given with' }),
    line: count.nullable().meta({ description: 'from 1' }),
    column: count.nullable().meta({ description: 'in characters, from 1' }),
    length: count.nullable().meta({ description: 'characters that are wrong' }),
    code: text.nullable(),
  })
  .meta({ id: 'problem' });

/** What every document begins and ends with. */
const envelope = <Name extends string>(name: Name, what: string) => ({
  document: z.literal(name).meta({ description: what }),
  format: z.literal(DOCUMENT_FORMAT),
  eddylift: text.meta({ description: 'version of the program' }),
  problems: z.array(problem).meta({ description: 'what is wrong, and warnings' }),
});

const status = z.enum([
  'done',
  'share done',
  'some designs failed',
  'no report',
  'already done',
  'refused',
  'broken off',
  'interrupted',
]);

const counts = {
  designs: count.nullable().meta({ description: 'rows of the tables; null where there are none' }),
  feasible: count.nullable(),
  front: count.nullable(),
  seconds: z.number().nonnegative().nullable().meta({ description: 'what its run took' }),
  folder: text.nullable().meta({ description: 'of the result' }),
};

const ran = z.object({
  file: text,
  status: z.union([status, z.literal('to come')]),
  code: z.int().nullable().meta({ description: 'exit code that the study alone would have had' }),
  ...counts,
});

const run = z.object({
  ...envelope('run', 'how a run ended'),
  status: status.meta({ description: 'of the only study, or the first that did not end well' }),
  ...counts,
  studies: z.array(ran).meta({ description: 'one each; the counts above are their sums' }),
});

const seconds = z
  .object({ least: z.number(), most: z.number().nullable() })
  .nullable()
  .meta({ description: 'forecast for this machine; most: null where it may be any' });

const outlined = z.object({
  file: text,
  ok: z.boolean(),
  study: text.nullable(),
  hash: text.nullable(),
  designs: count.nullable().meta({ description: 'of a search, the most that there can be' }),
  may_be_fewer: z.boolean().nullable(),
  threads: count.nullable(),
  seconds,
  varies: z.array(z.object({ path: text, values: text })),
  limits: z.array(text),
  objectives: z.array(z.object({ sense: z.enum(['maximise', 'minimise']), expression: text })),
  plan: text.nullable(),
  notes: z.array(text),
});

const check = z.object({
  ...envelope('check', 'what is wrong with studies, and what a run of them would do'),
  studies: z.array(outlined),
});

const limit = z.object({
  text,
  met: z.boolean().nullable(),
  value,
  margin: cell,
});

const spread = z.object({
  rigs: count,
  probability_lifts: z.number(),
  probability_limits: cell,
  quantities: z.record(
    text,
    z.object({
      drawn: cell,
      p05: cell,
      median: cell,
      p95: cell,
      explained_by_slopes: cell,
      variance_shares: z.record(text, z.number()).nullable(),
    }),
  ),
});

const sensitivities = z
  .record(
    text,
    z.record(
      text,
      z.union([
        z.object({ per_percent: cell }),
        z.object({ per_K: cell }),
        z.object({ up: cell, down: cell }),
      ]),
    ),
  )
  .meta({
    description:
      'of each quantity, by input: what one per cent or one kelvin more of it changes, or what became of it a step up and down where the two do not agree',
  });

const caution = z.object({
  id: text,
  hazard: text,
  rule: text,
  value: cell,
  at_least: z.boolean(),
  threshold: cell,
  unit: text,
  figures: z.array(z.object({ value: cell, unit: text })),
  advice: text,
  source: text,
});

const quantities = byColumn('by column name, which ends with the unit');

const card = z.object({
  ...envelope('card', 'the bench card of one design'),
  study: text,
  hash: text.meta({ description: 'SHA-256 of the study' }),
  design: count,
  changed: z
    .object({
      inputs: z.array(z.object({ path: text, from: text, to: text })),
      status_before: text,
      quantities_before: quantities,
    })
    .optional(),
  status: text,
  reason: text,
  inputs: byColumn('what varies, by column name'),
  rig: z.record(text, text).meta({ description: 'the rig in words, part by part' }),
  quantities,
  curve: z.array(quantities).meta({ description: 'the same at other currents, ascending' }),
  curve_end: text.nullable().meta({ description: 'what ends the curve' }),
  windings: z.array(z.record(text, cell)).meta({ description: 'SI: lengths in m, masses in kg' }),
  resting: z
    .object({ why: text, remedies: z.array(text) })
    .nullable()
    .meta({ description: 'of a design that rests' }),
  limits: z.array(limit),
  spread: spread.nullable(),
  sensitivities: sensitivities.nullable(),
  cautions: z.array(caution),
  not_judged: z
    .array(z.object({ missing: text, topics: z.array(text) }))
    .meta({ description: 'what could not be judged, and for want of what' }),
  reminder: text,
});

const compared = {
  quantities: z.record(
    text,
    z.object({ points: count, bias: z.number(), rms: z.number(), worst_line: count }),
  ),
  points: z.array(
    z.object({ line: count, quantity: text, measured: z.number(), model: cell, difference: cell }),
  ),
};

const compare = z.object({
  ...envelope('compare', 'measured points against the model'),
  study: text,
  hash: text,
  design: count,
  measured: text.meta({ description: 'the file of measured points' }),
  ...compared,
  calibration: z
    .object({
      inputs: z.array(
        z.object({
          path: text,
          unit: text,
          before: z.number(),
          value: z.number(),
          standard_error: cell,
          at_bound: z.boolean(),
        }),
      ),
      chi_square: z.number(),
      degrees_of_freedom: z.int(),
      uncertainties_stated: z.boolean(),
      converged: z.boolean(),
      hard_to_tell_apart: z.array(z.object({ a: text, b: text, correlation: z.number() })),
      without_effect: z.array(text),
      distinct: z.boolean(),
      ...compared,
    })
    .nullable(),
  patch: text.nullable().meta({ description: 'the file that the fitted inputs were written to' }),
});

const named = { name: text.meta({ description: 'in expressions' }), unit: text, meaning: text };

const quantityList = z.object({
  ...envelope('quantities', 'what expressions may name'),
  quantities: z.array(
    z.object({
      ...named,
      column: text.meta({ description: 'in tables' }),
      label: text,
      group: text,
      words: z.array(text).meta({ description: 'its values, where these are words' }),
      on_request: z.boolean().meta({ description: 'computed where a study names it' }),
    }),
  ),
  inputs: z.array(
    z.object({
      ...named,
      path: text.meta({ description: 'in study files, below rig' }),
      integer: z.boolean(),
      least: cell.meta({ description: 'in its unit' }),
      most: cell,
      least_excluded: z.boolean(),
    }),
  ),
});

const sourced = z.object({ value: z.number(), source: text });

const metals = z.object({
  ...envelope('metals', 'the catalogue of metals, SI'),
  metals: z.array(
    z.object({
      name: text,
      also_called: z.array(text),
      description: text,
      resistivity: sourced.meta({ description: 'ohm m at 20 degC' }),
      temperature_coefficient: sourced.meta({ description: '1/K, referred to 20 degC' }),
      density: sourced.meta({ description: 'kg/m3' }),
      specific_heat: sourced.meta({ description: 'J/(kg K)' }),
      relative_permeability: sourced,
      melts_from: sourced.meta({ description: 'K' }),
    }),
  ),
});

const results = z.object({
  ...envelope('results', 'the results in a folder, the latest first'),
  folder: text,
  results: z.array(
    z.object({
      folder: text,
      study: text,
      started: text.nullable().meta({ description: 'ISO 8601' }),
      finished: text.nullable(),
      seconds: z.number().nullable(),
      designs: count.nullable(),
      evaluated: count,
      feasible: count.nullable(),
      front: count.nullable(),
    }),
  ),
});

const front = z.object({
  ...envelope('front', 'the front of a result under other limits and objectives'),
  status: z.literal('done'),
  designs: count,
  feasible: count,
  front: count,
  seconds: z.number(),
  folder: text,
  file: text.meta({ description: 'the table that was written' }),
});

const change = z.object({ change: text, status: text, outcome: text, breaks: z.array(text) });

const improve = z.object({
  ...envelope('improve', 'what would make one design reach an aim'),
  design: count,
  aim: text,
  met: z.boolean(),
  now: change,
  why: text.nullable(),
  single: z.array(change),
  pair: change.nullable(),
});

const loose = (description: string) =>
  z.record(text, z.union([z.number(), text, z.boolean(), z.null()])).meta({ description });

const motion = z.object({
  ...envelope('motion', 'one design in time'),
  status: z.enum(['done', 'interrupted']),
  drive: loose('SI'),
  step: z.number().meta({ description: 's' }),
  summary: loose('SI'),
  energy: loose('J'),
  folder: text,
});

const warm = z.object({
  ...envelope('warm', 'one design as it warms'),
  design: count,
  held: z.enum(['voltage', 'current']),
  end: text,
  events: z.array(z.object({ time: z.number(), what: text })),
  last: loose('SI, the last moment'),
  rows: count,
  folder: text,
});

const error = z.object({
  ...envelope('error', 'a command that has nothing else to print'),
  exit_code: z.int(),
});

export const DOCUMENTS = {
  run,
  check,
  card,
  compare,
  quantities: quantityList,
  metals,
  results,
  front,
  improve,
  motion,
  warm,
  error,
} as const;

export type DocumentName = keyof typeof DOCUMENTS;

export type ProblemEntry = z.output<typeof problem>;

/** What a command gives; what every document begins with is added when it is printed. */
export type DocumentBody<Name extends DocumentName> = Omit<
  z.output<(typeof DOCUMENTS)[Name]>,
  'document' | 'format' | 'eddylift' | 'problems'
>;
