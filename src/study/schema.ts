import * as z from 'zod';
import { parseMeasure, toSI } from '../expression/measure.ts';
import type { Flaw, Outcome } from '../expression/outcome.ts';
import { flawed } from '../expression/outcome.ts';
import { didYouMean } from '../expression/suggest.ts';
import {
  type FittedCurve,
  fitMagnetisation,
  type MagnetisationPoint,
} from '../kernel/steel/magnetisation.ts';
import {
  type BEYOND_SUPPLY,
  type EDGES,
  type FLOATS,
  type InputSpec,
  inputByPath,
  type LOAD_COVERS,
  MAX_LAYERS,
  MAX_OVERLOADS,
  MAX_WINDINGS,
  METAL_KEYS,
  METAL_SLOTS,
  type MetalNumber,
  type TRANSPOSED,
  WINDING_KINDS,
} from '../model/inputs.ts';
import { FAMILIES, type Family, familyNumbers } from '../model/metal-families.ts';
import { KNOWN_METAL_NAMES, metalCalled } from '../model/metal-names.ts';
import { IACS, METALS } from '../model/metals.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { UNITS } from '../model/units.ts';
import { grouped } from '../text/grouped.ts';
import { cleanLine, quote } from './clean.ts';
import { AMOUNT, editorHints, forEditors, isNeverNegative, metalHints, offered } from './editor-hints.ts';
import { checkRange, exampleOf, readInput, THICK } from './input-value.ts';
import { CHOICE_PATHS, isDrive, NUMBER_PATHS } from './paths.ts';
import { TOLERANCE_WANTED } from './tolerance-size.ts';

// zod would write a function for each object and have it compiled, for the one study that is read
z.config({ jitless: true });

/**
 * The shape of a study file, past 300 lines because the file has that many parts and they are read best in
 * one piece. One definition serves the reader and `study.schema.json`. A schema's error text
 * is what is wanted in its place; a mapping's error text for an unknown key lists the keys it knows. Wording
 * is put together elsewhere.
 */
export function strict<Shape extends z.ZodRawShape>(shape: Shape, wanted: string, description: string) {
  return z
    .strictObject(shape, {
      error: (issue) => (issue.code === 'unrecognized_keys' ? Object.keys(shape).join(' ') : wanted),
    })
    .register(z.globalRegistry, { description });
}

/** A leaf that a function of ours reads: its flaw travels as the issue's parameters. */
export function leaf<T>(written: z.core.$RefinementCtx, outcome: Outcome<T>, input: unknown): T {
  if (outcome.ok) return outcome.value;
  written.addIssue({ code: 'custom', params: { flaw: outcome.flaw satisfies Flaw }, input });
  return z.NEVER;
}

function spec(path: string): InputSpec {
  const found = inputByPath(path);
  if (!found) throw new Error(`no input ${path}`);
  return found;
}

const NUMBER_OR_TEXT = [z.number(), z.string()] as const;

export function measure(path: string) {
  const input = spec(path);
  const unit = input.unit.symbol === '' ? '' : ` A plain number is in SI units.`;
  return z
    .union(NUMBER_OR_TEXT, { error: exampleOf(input) })
    .transform((written, context) => leaf(context, readInput(input, written), written))
    .register(z.globalRegistry, { description: `${input.meaning}.${unit}`, ...editorHints(input) });
}

export function text(wanted: string, description: string) {
  return z.string({ error: wanted }).register(z.globalRegistry, { description });
}

/** Where a study takes a part out of its stock file. */
export const FROM_STOCK = 'from stock';

/** A part by hand, or one of those in the store. */
function orFromStock<Part extends z.ZodType>(part: Part, wanted: string) {
  return z.union([z.literal(FROM_STOCK), part], { error: `${wanted}, or ${FROM_STOCK}` });
}

/** A metal's numbers in the order of its slots, NaN where not given. */
export interface MetalValue {
  readonly label: string;
  readonly numbers: readonly number[];
  /** What its family stands in for; left out where it is all its own. */
  readonly assumed?: Assumed;
}

export interface Assumed {
  readonly family: Family;
  /** Keys of a study: density, … */
  readonly keys: readonly string[];
}

const METAL_NAMES = METALS.map((metal) => metal.name);
const METAL_WANTED =
  'the name of a metal, or its resistivity or conductivity, temperature_coefficient, density and specific_heat, or a family that these are usual of';

function catalogueMetal(name: string): Outcome<MetalValue> {
  const metal = metalCalled(name);
  if (!metal) {
    return flawed(
      'unknown-metal',
      `${quote(name)} is not in the catalogue of metals`,
      `one of ${METAL_NAMES.join(', ')}${didYouMean(name, KNOWN_METAL_NAMES)}`,
    );
  }
  // tables group by it: one metal, one name
  return {
    ok: true,
    value: { label: metal.name, numbers: inSlotOrder((key) => metal[key]?.value ?? Number.NaN) },
  };
}

function inSlotOrder(numberOf: (key: MetalNumber) => number): number[] {
  const numbers: number[] = [];
  for (const key of METAL_NUMBERS) numbers[METAL_SLOTS[key]] = numberOf(key);
  return numbers;
}

/** The numbers of a metal by its own; those left out are its family's, where it names one. */
function ownNumbers({
  family,
  conductivity,
  magnetisation: curve,
  ...named
}: OwnMetal): Pick<MetalValue, 'numbers' | 'assumed'> {
  const given = curve
    ? { ...named, relative_permeability: curve.permeability, saturation: curve.saturation }
    : named;
  const own = conductivity === undefined ? given : { ...given, resistivity: 1 / conductivity };
  const usual = family && own.resistivity !== undefined ? familyNumbers(family, own.resistivity) : null;
  const numbers = inSlotOrder((key) => {
    const fallback = key === 'relativePermeability' ? 1 : Number.NaN;
    return own[METAL_KEYS[key]] ?? (usual && key !== 'resistivity' ? usual[key] : fallback);
  });
  const assumed = METAL_NUMBERS.filter((key) => key !== 'resistivity' && !Number.isNaN(usual?.[key]));
  const keys = assumed.map((key) => METAL_KEYS[key]).filter((key) => own[key] === undefined);
  return usual && family && keys.length > 0 ? { numbers, assumed: { family, keys } } : { numbers };
}

type OwnMetal = Partial<Record<(typeof METAL_KEYS)[MetalNumber] | 'conductivity', number | undefined>> & {
  readonly family?: Family | undefined;
  readonly magnetisation?: FittedCurve | undefined;
};

const CONDUCTIVITY_WANTED = 'a conductivity such as 34 MS/m or 43 %IACS';

/** S/m. */
function readConductivity(written: number | string): Outcome<number> {
  const percent = /^\s*(\d+\.?\d*|\.\d+)\s*%\s*IACS\s*$/i.exec(`${written}`)?.[1];
  if (percent !== undefined) return withinConductors(Number(percent) / 100 / IACS, written);
  if (typeof written === 'number') return withinConductors(written, written);
  const read = parseMeasure(written, UNITS.MS_per_m);
  return read.ok ? withinConductors(toSI(read.value.value, read.value), written) : read;
}

function withinConductors(si: number, written: number | string): Outcome<number> {
  const resistivity = checkRange(1 / si, spec('coil.metal.resistivity'), `${written}`);
  if (resistivity.ok) return { ok: true, value: si };
  return flawed('out-of-range', quote(`${written}`), CONDUCTIVITY_WANTED);
}

const METAL_NUMBERS = Object.keys(METAL_KEYS) as MetalNumber[];

const MAX_NAME = 80;

const metalName = z.string().register(z.globalRegistry, { id: 'metalName', ...metalHints(METAL_NAMES) });

const POINTS_WANTED =
  'points of a curve, each [field, flux density], such as [[500 A/m, 0.8 T], [5000 A/m, 1.7 T]]';
const MOST_POINTS = 200;
/** A curve that is further off than this from a point is not that metal's. */
const WORST_MISFIT = 0.3;

/** Measured points of B over H, rising: the two numbers of the curve nearest to them. */
const magnetisation = z
  .array(
    z
      .array(z.union([z.number(), z.string()], { error: POINTS_WANTED }), { error: POINTS_WANTED })
      .length(2, { error: POINTS_WANTED }),
    { error: POINTS_WANTED },
  )
  .min(2, { error: POINTS_WANTED })
  .max(MOST_POINTS, { error: `at most ${MOST_POINTS} points` })
  .transform((written, context) => leaf(context, readCurve(written), written))
  .register(z.globalRegistry, {
    description: `instead of relative_permeability and saturation: ${POINTS_WANTED}`,
  });

function readCurve(written: readonly (readonly (number | string)[])[]): Outcome<FittedCurve> {
  const points: MagnetisationPoint[] = [];
  for (const [i, pair] of written.entries()) {
    const field = readInput(FIELD, pair[0]!);
    if (!field.ok) return field;
    const flux = readInput(FLUX, pair[1]!);
    if (!flux.ok) return flux;
    const before = points.at(-1);
    if (before && !(field.value > before.field && flux.value > before.flux)) {
      return flawed(
        'not-rising',
        `point ${i + 1}, ${quote(`[${pair.join(', ')}]`)}, not above point ${i}`,
        'a field and a flux density that rise from point to point',
      );
    }
    if (
      before &&
      flux.value - before.flux > (before.flux / before.field) * (field.value - before.field) * STEEPER
    ) {
      return flawed(
        'not-saturating',
        `point ${i + 1}, ${quote(`[${pair.join(', ')}]`)}, where the curve bends upward`,
        'points from the steepest part of the curve on: it must flatten',
      );
    }
    points.push({ field: field.value, flux: flux.value });
  }
  const curve = fitMagnetisation(points);
  const inRange = checkRange(curve.saturation, spec('plate.layers.0.metal.saturation'), 'the points');
  if (curve.permeability > MOST_PERMEABLE) {
    return flawed(
      'no-curve',
      `points of a metal with a permeability of ${Math.round(curve.permeability)}`,
      `a curve of a permeability up to ${MOST_PERMEABLE} at low field`,
    );
  }
  if (!inRange.ok || curve.misfit > WORST_MISFIT) {
    return flawed(
      'no-curve',
      `points up to ${Math.round(100 * curve.misfit)} % away from any curve that saturates`,
      'a magnetisation curve: steep, then flat below 3 T',
    );
  }
  return { ok: true, value: curve };
}

/** How much steeper than all before it a piece may be: measured curves are not smooth. */
const STEEPER = 1.3;
const MOST_PERMEABLE = 2000;
const FIELD: InputSpec = {
  ...spec('plate.layers.0.metal.saturation'),
  path: 'magnetisation',
  unit: UNITS.A_per_m,
  meaning: 'field',
  minimum: 0,
  maximum: 1e7,
};
const FLUX: InputSpec = { ...spec('plate.layers.0.metal.saturation'), path: 'magnetisation', maximum: 20 };

function metal(path: string) {
  const own = strict(
    {
      name: text('a name', 'how tables call it; default custom').optional(),
      family: z
        .enum(FAMILIES, { error: FAMILIES.join(', ') })
        .register(z.globalRegistry, {
          description: 'what it is an alloy of: gives the numbers that are left out',
        })
        .optional(),
      resistivity: measure(`${path}.resistivity`).optional(),
      conductivity: z
        .union([z.number(), z.string()], { error: CONDUCTIVITY_WANTED })
        .transform((written, context) => leaf(context, readConductivity(written), written))
        .register(z.globalRegistry, {
          description: `instead of resistivity, at 20 degC: ${CONDUCTIVITY_WANTED}`,
        })
        .optional(),
      temperature_coefficient: measure(`${path}.temperature_coefficient`).optional(),
      density: measure(`${path}.density`).optional(),
      specific_heat: measure(`${path}.specific_heat`).optional(),
      relative_permeability: measure(`${path}.relative_permeability`).optional(),
      saturation: measure(`${path}.saturation`).optional(),
      magnetisation: magnetisation.optional(),
    },
    METAL_WANTED,
    'a metal by its own numbers at 20 degC',
  );
  return z
    .union([metalName, own], { error: METAL_WANTED })
    .transform((written, context): MetalValue => {
      if (typeof written === 'string') return leaf(context, catalogueMetal(written.trim()), written);
      const label = cleanLine(written.name ?? written.family ?? 'custom').slice(0, MAX_NAME);
      return { label: label === '' ? 'custom' : label, ...ownNumbers(written) };
    })
    .register(z.globalRegistry, { description: `${METAL_WANTED}. Catalogue: ${METAL_NAMES.join(', ')}` });
}

/** Enamel by its grade, or by its thickness on one side. The other is NaN. */
export interface InsulationValue {
  readonly label: string;
  readonly grade: number;
  readonly thickness: number;
}

export const coilMetal = metal('coil.metal').meta({ id: 'coilMetal' });
/** For every layer: they differ in their place only. */
export const plateMetal = metal('plate.layers.0.metal').meta({ id: 'plateMetal' });

const INSULATION_WANTED = 'grade 1, grade 2 or grade 3, or a thickness on one side such as 0.056 mm';

export function readInsulation(written: number | string): Outcome<InsulationValue> {
  if (typeof written === 'string' && /^\s*[a-z]/i.test(written)) {
    const grade = /^\s*grade\s*([123])\s*$/i.exec(written)?.[1];
    if (grade === undefined) return flawed('unknown-grade', quote(written), INSULATION_WANTED);
    return { ok: true, value: { label: `grade ${grade}`, grade: Number(grade), thickness: Number.NaN } };
  }
  const thickness = readInput(spec('coil.insulation.thickness'), written);
  if (!thickness.ok) return thickness;
  const label = typeof written === 'number' ? `${written} m` : cleanLine(written);
  return { ok: true, value: { label, grade: Number.NaN, thickness: thickness.value } };
}

export const insulation = z
  .union([z.number(), z.string()], { error: INSULATION_WANTED })
  .transform((written, context) => leaf(context, readInsulation(written), written))
  .register(z.globalRegistry, {
    description: `enamel: ${INSULATION_WANTED}`,
    ...offered(['grade 1', 'grade 2', 'grade 3']),
    minimum: 0,
  });

const floats = z
  .enum(['coil', 'plate', 'nothing'] satisfies (keyof typeof FLOATS)[], { error: 'coil, plate or nothing' })
  .register(z.globalRegistry, {
    description: 'what floats: coil, plate, or nothing (clamped at the standoff: a heating rig)',
  });

const edge = z
  .enum(['ignored', 'resolved'] satisfies (keyof typeof EDGES)[], { error: 'resolved or ignored' })
  .register(z.globalRegistry, {
    description:
      "resolved (finite disc) or ignored (infinitely wide); default: resolved when a radius under twice the coil's is given; of magnetic plates, single layers without a hole alone",
  });

export const fuseKind = z
  .enum(['gG', 'T', 'B', 'C', 'D'], {
    error: 'gG (IEC 60269), T (time-lag, IEC 60127-2), or B, C, D (circuit breaker, IEC 60898-1)',
  })
  .register(z.globalRegistry, {
    description:
      'gG (IEC 60269, the default), T (time-lag, IEC 60127-2), or B, C, D (circuit breaker, IEC 60898-1)',
  });
const fuseSide = z.enum(['coil', 'line'], { error: 'coil or line' }).register(z.globalRegistry, {
  description: 'side of the variable transformer on which the fuse is: coil (the default) or line',
});

const fuseRating = measure('supply.fuse.rating');
const FUSE_WANTED = 'a current such as 16 A, or {rating, kind, side}';
const fuse = z
  .union(
    [
      fuseRating,
      strict(
        {
          rating: z.union([z.literal(FROM_STOCK), fuseRating], { error: FUSE_WANTED }).optional(),
          kind: fuseKind.optional(),
          side: fuseSide.optional(),
        },
        FUSE_WANTED,
        'a fuse',
      ),
    ],
    { error: FUSE_WANTED },
  )
  .register(z.globalRegistry, {
    description: "a fuse: its rating (a gG on the coil's side), or {rating, kind, side}",
  });

const isolated = z.boolean({ error: 'true or false' }).register(z.globalRegistry, {
  description:
    'true where an isolating transformer stands between mains and coil (false is the default); see docs/supply.md',
});
const beyondSupply = z
  .enum(['refused', 'allowed'] satisfies (keyof typeof BEYOND_SUPPLY)[], { error: 'refused or allowed' })
  .register(z.globalRegistry, {
    description:
      'drives beyond max_voltage, max_current or the fuse: refused (infeasible, the default) or allowed',
  });

const WINDING_WANTED = 'loose, impregnated, or a conductivity such as 0.5 W/(m K)';

/** How the wires are held, or how well they conduct heat across the section; the other is NaN. */
export interface WindingValue {
  readonly kind: number;
  readonly conductivity: number;
  readonly label: string;
}

export function readWindingKind(written: number | string): Outcome<WindingValue> {
  if (typeof written === 'string' && /^\s*[a-z]/i.test(written)) {
    const kind = Object.entries(WINDING_KINDS).find(([name]) => name === written.trim())?.[1];
    if (kind === undefined) return flawed('unknown-winding', quote(written), WINDING_WANTED);
    return { ok: true, value: { kind, conductivity: Number.NaN, label: written.trim() } };
  }
  const conductivity = readInput(spec('coil.winding.conductivity'), written);
  if (!conductivity.ok) return conductivity;
  const label = typeof written === 'number' ? `${written} W/(m K)` : cleanLine(written);
  return { ok: true, value: { kind: WINDING_KINDS.loose, conductivity: conductivity.value, label } };
}

const windingKind = z
  .union(
    [
      z.number(),
      z.string(),
      strict(
        { conductivity: measure('coil.winding.conductivity').optional() },
        WINDING_WANTED,
        'how well it conducts heat across the section',
      ),
    ],
    { error: WINDING_WANTED },
  )
  .transform((written, context): WindingValue => {
    if (typeof written !== 'object') return leaf(context, readWindingKind(written), written);
    const { conductivity = Number.NaN } = written;
    return { kind: WINDING_KINDS.loose, conductivity, label: `${conductivity} W/(m K)` };
  })
  .register(z.globalRegistry, {
    description: `how the wires are held: ${WINDING_WANTED} across the section; default loose`,
  });

const windingName = z.enum(['loose', 'impregnated'] satisfies (keyof typeof WINDING_KINDS)[], {
  error: 'loose or impregnated',
});

const loadCover = z
  .enum(['lid', 'open'] satisfies (keyof typeof LOAD_COVERS)[], { error: 'lid or open' })
  .register(z.globalRegistry, { description: 'what covers the water: lid (the default) or open' });

const standoffThickness = measure('standoff');
const standoff = z
  .union(
    [
      standoffThickness,
      strict(
        {
          thickness: standoffThickness.optional(),
          breakdown: measure('standoff.breakdown').optional(),
          conductivity: measure('standoff.conductivity').optional(),
          restitution: measure('standoff.restitution').optional(),
        },
        'a length such as 2 mm, or {thickness, breakdown, conductivity, restitution}',
        'a standoff',
      ),
    ],
    { error: 'a length such as 2 mm, or {thickness, breakdown, conductivity, restitution}' },
  )
  .register(z.globalRegistry, {
    description: 'gap at rest: a length, or {thickness, breakdown, conductivity, restitution}',
  });

const guides = strict(
  { drag: measure('guides.drag').optional(), play: measure('guides.play').optional() },
  'a mapping with drag and play, such as {drag: 0.2 N s/m, play: 2 mm}',
  'what guides the floating part: posts, tethers, leads',
);

const STRANDS_WANTED = 'a whole number, or {count, diameter, transposed}';

/** At `coil` or at a winding: how many wires in hand, of which diameter, and whether they change places. */
function strandsAt(path: string) {
  const count = measure(`${path}.strands`);
  return z
    .union(
      [
        count,
        strict(
          {
            count: count.optional(),
            diameter: measure(`${path}.wire`).optional(),
            transposed: z
              .enum(['yes', 'no'] satisfies (keyof typeof TRANSPOSED)[], { error: 'yes or no' })
              .register(z.globalRegistry, {
                description:
                  'yes: the wires change places (litz), and share the current; no: they lie side by side, and currents circulate',
              })
              .optional(),
          },
          STRANDS_WANTED,
          'wires in hand',
        ),
      ],
      { error: STRANDS_WANTED },
    )
    .register(z.globalRegistry, {
      description: `wires in hand (parallel): ${STRANDS_WANTED}; a number alone counts as transposed`,
    });
}

const windingSense = z
  .union([z.literal(1), z.literal(-1)], { error: '1, or -1 for a winding wound against the others' })
  .register(z.globalRegistry, { description: '-1: wound against the others' });

/** For every winding: they differ in their place only. */
const winding = strict(
  {
    metal: coilMetal.optional(),
    wire: orFromStock(measure('coil.windings.0.wire'), exampleOf(spec('coil.windings.0.wire'))).optional(),
    strands: strandsAt('coil.windings.0').optional(),
    insulation: insulation.optional(),
    turns: measure('coil.windings.0.turns').optional(),
    layers: measure('coil.windings.0.layers').optional(),
    inner_radius: measure('coil.windings.0.inner_radius').optional(),
    section: strict(
      {
        outer_radius: measure('coil.windings.0.section.outer_radius').optional(),
        height: measure('coil.windings.0.section.height').optional(),
      },
      '{outer_radius, height}',
      "the winding's cross-section, fixed by hand",
    ).optional(),
    offset: measure('coil.windings.0.offset').optional(),
    sense: windingSense.optional(),
  },
  'a winding: {inner_radius, turns, layers or section, …}',
  "one of several coaxial windings in series; metal, wire, insulation and layers default to the coil's",
);

const coil = strict(
  {
    metal: coilMetal.optional(),
    wire: orFromStock(measure('coil.wire'), exampleOf(spec('coil.wire'))).optional(),
    strands: strandsAt('coil').optional(),
    insulation: insulation.optional(),
    thermal_class: measure('coil.thermal_class').optional(),
    turns: measure('coil.turns').optional(),
    layers: measure('coil.layers').optional(),
    inner_radius: measure('coil.inner_radius').optional(),
    section: strict(
      {
        outer_radius: measure('coil.section.outer_radius').optional(),
        height: measure('coil.section.height').optional(),
      },
      '{outer_radius, height}',
      "the winding's cross-section, fixed by hand",
    ).optional(),
    winding: windingKind.optional(),
    at_temperature: measure('coil.at_temperature').optional(),
    extra_mass: measure('coil.extra_mass').optional(),
    windings: z
      .array(winding, { error: 'a list of windings: [{inner_radius, turns, layers or section, …}, …]' })
      .min(1, { error: 'at least one winding' })
      .max(MAX_WINDINGS, { error: `at most ${MAX_WINDINGS} windings` })
      .register(z.globalRegistry, {
        description: 'coaxial windings in series, instead of turns, layers, inner_radius and section',
      })
      .optional(),
  },
  'the coil: a mapping with metal, wire, insulation, turns, …',
  'the coil',
);

const layerThickness = measure('plate.layers.0.thickness');
const layer = strict(
  { metal: plateMetal.optional(), thickness: layerThickness.optional() },
  'a layer: {metal, thickness}',
  'one layer of the plate',
);

const TWO_SIDES = 'two lengths such as [400 mm, 300 mm]';

const plate = strict(
  {
    metal: plateMetal.optional(),
    thickness: orFromStock(layerThickness, exampleOf(spec('plate.layers.0.thickness'))).optional(),
    layers: z
      .array(layer, { error: 'a list of layers, coil side first: [{metal, thickness}, …]' })
      .min(1, { error: 'at least one layer' })
      .max(MAX_LAYERS, { error: `at most ${MAX_LAYERS} layers` })
      .register(z.globalRegistry, { description: `layers, coil side first; the last may be '${THICK}'` })
      .optional(),
    radius: measure('plate.radius').optional(),
    square: measure('plate.square').optional(),
    sides: z
      .array(measure('plate.sides.0'), { error: TWO_SIDES })
      .length(2, { error: TWO_SIDES })
      .register(z.globalRegistry, { description: 'both sides of a rectangular plate' })
      .optional(),
    inner_radius: measure('plate.inner_radius').optional(),
    edge: edge.optional(),
    extra_mass: measure('plate.extra_mass').optional(),
    at_temperature: measure('plate.at_temperature').optional(),
    load: strict(
      {
        water: measure('plate.load.water').optional(),
        from: measure('plate.load.from').optional(),
        to: measure('plate.load.to').optional(),
        cover: loadCover.optional(),
      },
      '{water, from, to, cover}',
      'what a heating rig must warm',
    ).optional(),
  },
  'the plate: a mapping with metal and thickness, or layers',
  'the plate',
);

const OVERLOAD_WANTED = '{current, time}, such as {current: 15 A, time: 10 min}';
const current = measure('supply.transformer.overload.0.current');
const time = measure('supply.transformer.overload.0.time');
const OVERLOAD = 'what the variable transformer may give for a while';
export const overload = strict({ current, time }, OVERLOAD_WANTED, OVERLOAD);

const overloadLine = strict(
  { current: current.optional(), time: time.optional() },
  OVERLOAD_WANTED,
  OVERLOAD,
);

const overloads = z
  .array(overloadLine, { error: `a list of ${OVERLOAD_WANTED}` })
  .max(MAX_OVERLOADS, { error: `at most ${MAX_OVERLOADS} overloads` })
  .transform((table, context) => leaf(context, checkOverloads(table), table))
  .register(z.globalRegistry, {
    description: "the maker's overload table: currents above the rated one, and how long each may flow",
  });

function checkOverloads<Table extends readonly { current?: number | undefined }[]>(
  table: Table,
): Outcome<Table> {
  const wrong = table.findIndex(({ current }, i) => i > 0 && current! <= table[i - 1]!.current!);
  if (wrong < 0) return { ok: true, value: table };
  return flawed('overload-order', `line ${wrong + 1} of the overload table out of order`, 'rising currents');
}

const TRANSFORMER_WANTED = 'the variable transformer: {current, overload}, or from stock';
const transformer = z
  .union(
    [
      z.literal(FROM_STOCK),
      strict(
        { current: measure('supply.transformer.current').optional(), overload: overloads.optional() },
        TRANSFORMER_WANTED,
        'the variable transformer: its rated current and its overload table',
      ),
    ],
    { error: TRANSFORMER_WANTED },
  )
  .register(z.globalRegistry, {
    description: `the variable transformer: rated current and overload table; or ${FROM_STOCK}: one there gives max_voltage and max_current`,
  });

const supply = strict(
  {
    frequency: measure('supply.frequency').optional(),
    line_voltage: measure('supply.line_voltage').optional(),
    max_voltage: measure('supply.max_voltage').optional(),
    max_current: measure('supply.max_current').optional(),
    fuse: orFromStock(fuse, FUSE_WANTED).optional(),
    series_capacitance: orFromStock(
      measure('supply.series_capacitance'),
      exampleOf(spec('supply.series_capacitance')),
    ).optional(),
    transformer: transformer.optional(),
    series_resistance: measure('supply.series_resistance').optional(),
    isolated: isolated.optional(),
    beyond: beyondSupply.optional(),
  },
  'the supply: a mapping with frequency and its limits',
  'the supply',
);

const duty = strict(
  { on: measure('duty.on').optional(), off: measure('duty.off').optional() },
  '{on, off}, such as {on: 5 min, off: 25 min}',
  'how long it is on and off, over and over',
);

const surroundings = strict(
  {
    temperature: measure('surroundings.temperature').optional(),
    visitor_distance: measure('surroundings.visitor_distance').optional(),
    operator_distance: measure('surroundings.operator_distance').optional(),
    headroom: measure('surroundings.headroom').optional(),
    sideways_shift: measure('surroundings.sideways_shift').optional(),
  },
  'a mapping with temperature, visitor_distance, operator_distance, headroom and sideways_shift',
  'the surroundings',
);

const rig = strict(
  {
    floats: floats.optional(),
    coil: coil.optional(),
    plate: plate.optional(),
    standoff: standoff.optional(),
    guides: guides.optional(),
    duty: duty.optional(),
    supply: supply.optional(),
    surroundings: surroundings.optional(),
  },
  'the rig: a mapping with floats, coil, plate, standoff, supply',
  'the rig: everything that does not vary',
);

export const SUPPLY_LIMIT = 'supply limit';
const DRIVE_WANTED = `{current: 12 A}, {voltage: 96 V} or '${SUPPLY_LIMIT}'`;
const drive = z
  .union(
    [
      z.literal(SUPPLY_LIMIT),
      strict(
        { current: measure('drive.current').optional(), voltage: measure('drive.voltage').optional() },
        DRIVE_WANTED,
        'a coil current, or a voltage at the outlet of the variable transformer',
      ).meta({ maxProperties: 1 }),
    ],
    { error: DRIVE_WANTED },
  )
  .register(z.globalRegistry, {
    description: `what drives the coil: ${DRIVE_WANTED} (as far as max_voltage, max_current and fuse allow)`,
  });

const LEVEL_WANTED = 'a number, or a text with a unit';
const anyLevel = z.union([z.number(), z.string()], { error: LEVEL_WANTED });
/** Of an input that cannot be negative. */
const amountLevel = anyLevel.meta({ id: 'amount', ...AMOUNT });

function rangeOf(level: typeof anyLevel, id: string) {
  return (
    strict(
      {
        series: text(
          'the name of a series such as R 20',
          'sizes that exist, such as R 20; see docs/shelf.md',
        ).optional(),
        from: level.meta({ description: 'first value' }).optional(),
        to: level.meta({ description: 'last value' }).optional(),
        step: level
          .meta({ description: 'distance of two values; or give count; a search needs neither' })
          .optional(),
        count: z
          .number({ error: 'a whole number' })
          .register(z.globalRegistry, { description: 'how many values; or give step' })
          .optional(),
        spacing: z
          .enum(['linear', 'log'], { error: 'linear or log' })
          .register(z.globalRegistry, { description: 'linear (default) or log; not with step' })
          .optional(),
      },
      '{from, to, step} or {from, to, count, spacing}; for a search {from, to}',
      'a range, or the sizes of a series: {series, from, to}',
    )
      // a series has ends of its own
      .check((context) => {
        if (context.value.series !== undefined) return;
        for (const part of ['from', 'to'] as const) {
          if (context.value[part] !== undefined) continue;
          context.issues.push({
            code: 'invalid_type',
            expected: 'string',
            message: LEVEL_WANTED,
            path: [part],
            input: undefined,
          });
        }
      })
      .register(z.globalRegistry, { id })
  );
}

const LIST_WANTED = 'a list of values';
const NUMBERS_WANTED =
  'a list of values, or {from, to, step}, or {from, to, count, spacing}, or {series, from, to}';

function list<Item extends z.ZodType>(item: Item) {
  return z.array(item, { error: LIST_WANTED }).min(1, { error: 'at least one value' });
}

function levelsOf(level: typeof anyLevel, [values, range, numbers]: readonly [string, string, string]) {
  const listed = list(level).meta({ id: values });
  return z
    .union([listed, rangeOf(level, range)], { error: NUMBERS_WANTED })
    .register(z.globalRegistry, { id: numbers });
}

const anyNumbers = levelsOf(anyLevel, ['values', 'range', 'numbers']);
const amounts = levelsOf(amountLevel, ['amountValues', 'amountRange', 'amounts']);

const coilMetals = list(coilMetal);
const plateMetals = list(plateMetal);

function choicesOf(path: string) {
  if (path === 'floats') return list(floats);
  if (path === 'plate.edge') return list(edge);
  if (path === 'supply.fuse.kind') return list(fuseKind);
  if (path === 'supply.fuse.side') return list(fuseSide);
  if (path === 'supply.isolated') return list(isolated);
  if (path === 'plate.load.cover') return list(loadCover);
  if (path === 'coil.winding') return list(windingName);
  if (path.endsWith('.sense')) return list(windingSense);
  return path.startsWith('coil') ? coilMetals : plateMetals;
}

const vary = strict(
  {
    ...Object.fromEntries([...CHOICE_PATHS.keys()].map((path) => [path, choicesOf(path).optional()])),
    'coil.insulation': z
      .union(amounts.options, { error: `a list such as [grade 1, grade 2], or ${NUMBERS_WANTED}` })
      .register(z.globalRegistry, { description: 'grades, or thicknesses on one side' })
      .optional(),
    ...byPath(([, path]) => !isNeverNegative(spec(path)), anyNumbers),
    ...byPath(([, path]) => isNeverNegative(spec(path)), amounts),
  } as Record<string, z.ZodType>,
  'a mapping from a path below rig, such as coil.turns, to values',
  'what varies, the first key slowest; without it the study is one design',
);

const EXPRESSION = 'an expression such as height / current';
const derived = z
  .union(
    [
      z.string(),
      strict(
        {
          is: text(EXPRESSION, 'the expression'),
          unit: text('a unit such as mm/A', 'unit of its column').optional(),
        },
        `${EXPRESSION}, or {is, unit}`,
        'an expression and the unit of its column',
      ),
    ],
    { error: `${EXPRESSION}, or {is, unit}` },
  )
  .register(z.globalRegistry, { description: `${EXPRESSION}, or {is, unit}` });

const SENSES = '{maximise: …} or {minimise: …}';
const objective = strict(
  { maximise: text(EXPRESSION, EXPRESSION).optional(), minimise: text(EXPRESSION, EXPRESSION).optional() },
  SENSES,
  SENSES,
).meta({ minProperties: 1, maxProperties: 1 });

function whole(minimum: number, maximum: number, description: string) {
  const wanted = `a whole number from ${grouped(minimum)} to ${grouped(maximum)}`;
  return z
    .number({ error: wanted })
    .int({ error: wanted })
    .min(minimum, { error: wanted })
    .max(maximum, { error: wanted })
    .register(z.globalRegistry, { description });
}

function fraction(description: string) {
  const wanted = 'a share such as 1e-4, above 0 and at most 0.5';
  return z
    .number({ error: wanted })
    .gt(0, { error: wanted })
    .max(0.5, { error: wanted })
    .register(z.globalRegistry, { description });
}

const MILLION = 1_000_000;
const seed = () => whole(0, 2 ** 32 - 1, 'another seed, another search; default 1').optional();

const PLAN_WANTED = 'one of {grid: {}}, {sobol: …}, {nelder_mead: …}, {genetic: …}';
const plan = strict(
  {
    grid: strict({}, '{}', 'every combination').optional(),
    sobol: strict(
      { points: whole(1, 50 * MILLION, 'how many designs'), seed: seed() },
      '{points, seed}',
      "designs spread evenly over all that varies (Sobol' points)",
    ).optional(),
    nelder_mead: strict(
      {
        starts: whole(1, 1000, 'descents of each run, each from another start; default 8').optional(),
        seed: seed(),
        levels: whole(
          1,
          1000,
          'levels of each objective after the first, for each of which a run is made; default 8',
        ).optional(),
        evaluations: whole(10, MILLION, 'designs that one start may take; default 2000').optional(),
        tolerance: fraction(
          'a start ends when its rounds gain less than this share of how far the objective varies; default 1e-4',
        ).optional(),
        resolution: fraction('the share of a range that is too small to matter; default 1e-4').optional(),
      },
      '{starts, seed, levels, evaluations, tolerance, resolution}, or {}',
      'downhill from many starts: the first objective, for levels of the others',
    ).optional(),
    genetic: strict(
      {
        population: whole(4, 10_000, 'designs of a generation; default 50').optional(),
        generations: whole(
          1,
          MILLION,
          'at most so many generations, of which the first tenth (ten at most) is spread evenly; default 200',
        ).optional(),
        seed: seed(),
        patience: whole(
          1,
          MILLION,
          'generations over which the front must grow, or the search ends; default 40',
        ).optional(),
        tolerance: fraction(
          'growth of the hypervolume below which it counts as none; default 1e-3',
        ).optional(),
      },
      '{population, generations, seed, patience, tolerance}, or {}',
      'an evolutionary search for the front',
    ).optional(),
  },
  PLAN_WANTED,
  `which designs are evaluated: ${PLAN_WANTED}; default {grid: {}}, every combination`,
).meta({ maxProperties: 1 });

/** As written: what it means, and whether it may be, depends on the path that it stands at. */
const written = z.union([z.number(), z.string()]);

const FITTED_WANTED = 'a value such as 2.8 mm, or {value, error}';
const fittedValue = z
  .union(
    [
      z.number(),
      z.string(),
      strict(
        {
          value: written.meta({ description: 'in the unit of the input; a plain number is in SI units' }),
          error: written.meta({ description: 'standard error of the fit' }).optional(),
        },
        FITTED_WANTED,
        FITTED_WANTED,
      ),
    ],
    { error: FITTED_WANTED },
  )
  .register(z.globalRegistry, { id: 'fitted', description: FITTED_WANTED });

const CALIBRATED_WANTED =
  'a file of fitted inputs beside the study, such as calibrated.yaml, or {path: value}';
/** Paths below rig and values that take the place of the rig's own, and where they come from. */
export const FITTED = strict(
  {
    file: text('a file name', 'the file that holds this').optional(),
    measured: text('a file name', 'the measured points that it was fitted to').optional(),
    ...byPath(([, path]) => !isDrive(path), fittedValue),
  } as FittedParts,
  CALIBRATED_WANTED,
  'inputs that were fitted to measured points, in place of those of the rig',
);
type FittedParts = { file: z.ZodOptional<z.ZodString>; measured: z.ZodOptional<z.ZodString> } & Record<
  string,
  z.ZodType<z.output<typeof fittedValue> | undefined>
>;
const calibrated = z
  .union([z.string(), FITTED], { error: CALIBRATED_WANTED })
  .register(z.globalRegistry, { description: CALIBRATED_WANTED });

const toleranceValue = z
  .union(
    [
      z.number(),
      z.string(),
      strict(
        {
          size: written,
          spread: z
            .enum(['normal', 'uniform'], { error: 'normal or uniform' })
            .register(z.globalRegistry, {
              description: 'normal (default): size is the standard deviation; uniform: the half-width',
            })
            .optional(),
        },
        TOLERANCE_WANTED,
        TOLERANCE_WANTED,
      ),
    ],
    { error: TOLERANCE_WANTED },
  )
  .register(z.globalRegistry, { id: 'tolerance', description: TOLERANCE_WANTED });

const tolerance = strict(
  byPath(() => true, toleranceValue),
  'a mapping from a path below rig, such as standoff, to a tolerance',
  'how far inputs of the rig that is built may be from those of its design',
);

/** One shape at every path that is a number. Editors are told what each means (`studySchemaText`): a reader need not make it. */
function byPath<Value extends z.ZodType>(
  wanted: (entry: readonly [alias: string, path: string]) => boolean,
  value: Value,
): Record<string, z.ZodOptional<Value>> {
  const one = value.optional();
  return Object.fromEntries([...NUMBER_PATHS].filter(wanted).map(([path]) => [path, one]));
}

/** A quantity of the registry, or one that the study derives. */
const keptName = text('the name of a quantity', 'the name of a quantity').meta({
  anyOf: [{ enum: QUANTITIES.map(({ name }) => name) }, { pattern: '^[A-Za-z_]\\w*$' }],
});

const STOCK_WANTED = 'a stock file beside the study, such as rack.yaml';

export const SECTIONS = {
  study: text('a title', 'title of the study'),
  notes: text('a text', 'free text, shown in the report').optional(),
  rig,
  calibrated: calibrated.optional(),
  stock: z
    .union([z.string(), z.looseObject({})], { error: STOCK_WANTED })
    .register(z.globalRegistry, { description: `${STOCK_WANTED}; see docs/shelf.md` })
    .optional(),
  drive: drive.optional(),
  vary: vary.optional(),
  derive: z
    .record(z.string(), derived, { error: 'a mapping from a name to an expression' })
    .register(z.globalRegistry, { description: 'extra quantities' })
    .optional(),
  limits: z
    .array(text('a limit such as current <= 16 A', 'a limit such as current <= 16 A'), {
      error: 'a list of limits such as [current <= 16 A]',
    })
    .register(z.globalRegistry, { description: 'what a design must meet to be feasible' })
    .optional(),
  objectives: z
    .array(objective, { error: `a list of objectives: [${SENSES}]` })
    .min(1, { error: `at least one objective: ${SENSES}; or no objectives at all: tables without a front` })
    .register(z.globalRegistry, {
      description: 'what makes a design better; without it there are tables and no front',
    })
    .optional(),
  plan: plan.optional(),
  tolerance: tolerance.optional(),
  keep: z
    .array(keptName, { error: 'a list of quantities' })
    .register(z.globalRegistry, { description: 'quantities to write; default all' })
    .optional(),
};

export const STUDY = strict(SECTIONS, 'a mapping with study, rig and drive', 'an Eddylift study');

export type RigShape = z.output<typeof rig>;
export type FittedShape = z.output<typeof FITTED>;
export type CalibratedShape = string | FittedShape;
export type ToleranceShape = z.output<typeof toleranceValue>;
export type DriveShape = z.output<typeof drive>;
export type PlanShape = z.output<typeof plan>;
export type RangeShape = z.output<ReturnType<typeof rangeOf>>;
export type DerivedShape = z.output<typeof derived>;
export type ObjectiveShape = z.output<typeof objective>;

/** The `$id` of the schema: a name, not a place. */
const STUDY_ID = 'urn:eddylift:study:1';

/** Mappings from a path to a shape that says nothing of the path. */
const BY_PATH: readonly unknown[] = [vary, FITTED, tolerance];

/** The committed `studies/study.schema.json`, for editors. */
export function studySchemaText(): string {
  const schema = z.toJSONSchema(STUDY, {
    io: 'input',
    reused: 'inline',
    override({ zodSchema, jsonSchema: { properties } }) {
      if (!properties || !BY_PATH.includes(zodSchema)) return;
      for (const [path, slotPath] of NUMBER_PATHS) {
        const shape = properties[path];
        if (typeof shape === 'object') properties[path] = { description: spec(slotPath).meaning, ...shape };
      }
    },
  });
  const { $schema, ...rest } = forEditors(schema, FROM_STOCK);
  return `${JSON.stringify({ $schema, $id: STUDY_ID, title: 'Eddylift study', ...rest }, null, 2)}\n`;
}
