import type { TopLevelSpec } from 'vega-lite';
import { toUnit } from '../../model/units.ts';
import { metalBeside } from '../../model/varied-metals.ts';
import type { ThinSample } from '../../survey/thin-sample.ts';
import { shortText } from '../../text/clean-text.ts';
import { countText } from '../../text/number-text.ts';
import { letterOf } from '../letters.ts';
import type { ReportInput } from '../report-input.ts';
import { domainOf, objectiveTitle, scaleFor } from './axis-title.ts';
import { category } from './category.ts';
import { legendColumns } from './legend-columns.ts';
import { limitMarks, STAR } from './limit-marks.ts';
import { METAL_INKS } from './metal-inks.ts';
import { INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

export interface FrontChart {
  readonly svg: string;
  /** Designs drawn besides the front. */
  readonly rings: number;
  readonly crosses: number;
  /** Picked designs that lie beyond the edges of the picture. */
  readonly outside: number;
  /** Designs of the front without a place: an objective is unlimited. */
  readonly placeless: number;
}

const WIDTH = 590;
const HEIGHT = 380;
/** How far beyond the feasible designs the picture reaches for others, in widths of their range. */
const REACH = 0.25;
/** Around everything that is drawn, in widths of its range. */
const AIR = 0.04;
/** Beyond so many dots a rim of paper around each would wipe out its neighbours. */
const MANY = 100;
/** Dots: area in px², width of the rim in px. */
const SPARSE = { size: 64, strokeWidth: 2 };
const CROWDED = { size: 30, strokeWidth: 0 };
const LETTERED = { size: 250, strokeWidth: 2 };
/** How marks of one kind look. */
interface Kind {
  readonly name: string;
  readonly shape: string;
  readonly fill: string;
  readonly stroke: string;
}

interface Place {
  readonly x: number;
  readonly y: number;
}

type Marked = Place & { readonly kind: string };

/**
 * The front: objective `across` from left to right, the first objective upward. Designs of the front are filled dots
 * and links to their cards; other feasible designs are rings, the rest crosses.
 *
 * @param descriptions of each design of the front, for hover and for screen readers
 */
export async function frontChart(
  input: ReportInput,
  descriptions: readonly string[],
  across: number,
): Promise<FrontChart> {
  const { study, front, survey, chosen, objectiveLabels } = input;
  const [xObjective, yObjective] = [study.objectives[across]!, study.objectives[0]!];
  const place = (objective: (o: number) => number): Place => ({
    x: toUnit(objective(across), xObjective.unit),
    y: toUnit(objective(0), yObjective.unit),
  });
  const ofFront = (row: number) => place((o) => front.objectives[o * front.count + row]!);
  const kinds = kindsOf(input);
  const ofSample = (
    { designs, objectives }: ThinSample,
    kindOf: (i: number) => Kind,
  ): (Marked & { design: number })[] =>
    objectives.map((values, i) => ({
      ...place((o) => values[o]!),
      kind: kindOf(i).name,
      design: designs[i]!,
    }));

  const dots = descriptions
    .map((description, row) => ({
      ...ofFront(row),
      kind: kinds.onFront(front.values, row).name,
      href: `#design-${front.designs[row]}`,
      description,
      lettered: letterOf(chosen, row) !== null,
    }))
    .filter(hasPlace)
    .sort((a, b) => a.x - b.x || a.y - b.y);
  const letters = chosen
    .map(({ row }) => ({ ...ofFront(row), letter: letterOf(chosen, row) }))
    .filter(hasPlace);
  const onFront = new Set(front.designs);
  const { feasibleSample, otherSample } = survey;
  const rings = ofSample(feasibleSample, (i) => kinds.feasible(feasibleSample.values[i]!)).filter(
    ({ design }) => !onFront.has(design),
  );
  const others = ofSample(otherSample, (i) => kinds.missing(otherSample.unmet[i]!));
  const core = dots.length + rings.length > 0 ? [...dots, ...rings] : others;
  const scale = { x: scaleFor(xs(core)), y: scaleFor(ys(core)) };
  const near = { x: domainOf(xs(core), REACH, scale.x), y: domainOf(ys(core), REACH, scale.y) };
  const crosses = others.filter(({ x, y }) => within(x, near.x) && within(y, near.y));
  const drawn = [...core, ...crosses];
  const domain = { x: domainOf(xs(drawn), AIR, scale.x), y: domainOf(ys(drawn), AIR, scale.y) };

  const axis = (name: 'x' | 'y', title: string, tickCount: number) => ({
    field: name,
    type: 'quantitative',
    scale: { domain: domain[name], type: scale[name], nice: false },
    axis: { title, grid: false, tickCount },
  });
  const axes = {
    x: axis('x', objectiveTitle(objectiveLabels[across]!, xObjective), 8),
    y: axis('y', objectiveTitle(objectiveLabels[0]!, yObjective), 6),
  };
  // what is reached at an x holds until another design beats it; with more objectives a projection has no such steps
  const steps = {
    data: { values: dots },
    mark: {
      type: 'line',
      aria: false,
      color: kinds.isByMetal ? INK.quiet : INK.front,
      strokeWidth: 1.2,
      interpolate: xObjective.sense === 'minimise' ? 'step-after' : 'step-before',
    },
    encoding: axes,
  };
  const scales = kindScales(kinds, [...dots, ...rings, ...crosses]);
  const dotLayer = (values: typeof dots, look: typeof SPARSE, shape: object = scales.shape) => ({
    data: { values },
    mark: { type: 'point', opacity: 1, ...look },
    encoding: {
      ...axes,
      shape,
      fill: scales.fill,
      stroke: { value: INK.paper },
      href: { field: 'href' },
      description: { field: 'description' },
    },
  });
  const spec = {
    width: WIDTH,
    height: HEIGHT,
    layer: [
      {
        data: { values: [...crosses, ...rings] },
        mark: { type: 'point', aria: false, size: 24, strokeWidth: 1.2, opacity: 1 },
        encoding: { ...axes, ...scales },
      },
      ...(study.objectives.length === 2 ? [steps] : []),
      dotLayer(
        dots.filter(({ lettered }) => !lettered),
        front.count > MANY ? CROWDED : SPARSE,
      ),
      // over all others, so that their letters stay whole
      dotLayer(
        dots.filter(({ lettered }) => lettered),
        LETTERED,
        // a letter has no room in a diamond
        { value: 'circle' },
      ),
      {
        data: { values: letters },
        mark: { type: 'text', aria: false, fontSize: 11, fontWeight: 'bold', color: INK.paper },
        encoding: { ...axes, text: { field: 'letter' } },
      },
    ],
  };
  const alt =
    `Chart of ${objectiveLabels[0]} against ${objectiveLabels[across]}: ${countText(dots.length, 'design')} on the ` +
    `front as filled dots, ${rings.length} other feasible designs as rings, ${crosses.length} that ` +
    'are not feasible as crosses.';
  return {
    svg: await renderChart(spec as TopLevelSpec, alt),
    rings: rings.length,
    crosses: crosses.length,
    outside: others.length - crosses.length,
    placeless: front.count - dots.length,
  };
}

function hasPlace({ x, y }: Place): boolean {
  return Number.isFinite(x) && Number.isFinite(y);
}

function xs(places: readonly Place[]): number[] {
  return places.map(({ x }) => x);
}

function ys(places: readonly Place[]): number[] {
  return places.map(({ y }) => y);
}

function within(value: number, [low, high]: readonly [number, number]): boolean {
  return value >= low && value <= high;
}

/** What marks there are: of the front and of feasible designs one a metal where one is varied, of others one a limit. */
interface Kinds {
  readonly all: readonly Kind[];
  readonly isByMetal: boolean;
  /** Names that a legend explains, in its order, of those that are drawn. */
  legend(drawn: ReadonlySet<string>): readonly string[];
  onFront(values: Float64Array, row: number): Kind;
  feasible(values: Float64Array): Kind;
  missing(unmet: number): Kind;
}

function kindsOf({ study, survey }: ReportInput): Kinds {
  const v = metalBeside(study.vary, null);
  const width = study.vary.length;
  const metal = v === null ? null : study.vary[v]!;
  const names = metal?.kind === 'choice' ? metal.levels.map(({ label }) => shortText(label, 24)) : null;
  const dot = (name: string, { ink, mark }: { readonly ink: string; readonly mark: string }): Kind => ({
    name: category(name),
    shape: mark,
    fill: ink,
    stroke: ink,
  });
  const plain = { ink: INK.front, mark: 'circle' };
  const fronts =
    names === null ? [dot('on the front', plain)] : names.map((name, i) => dot(name, METAL_INKS[i]!));
  const open: Kind = { name: 'feasible', shape: 'circle', fill: 'transparent', stroke: INK.feasible };
  const rings = fronts.map(
    (kind): Kind => ({ ...kind, name: `${kind.name}, feasible`, fill: 'transparent' }),
  );
  const feasible = names === null ? [open] : [...rings, { ...open, stroke: INK.quiet }];
  const cross = (name: string, shape: string): Kind => ({
    name: category(name),
    shape,
    fill: 'transparent',
    stroke: INK.others,
  });
  const misses = new Map(
    limitMarks({ survey }).map(({ bit, text, shape }) => [bit, cross(`misses ${text}`, shape)]),
  );
  const several = cross(survey.limits.length > 1 ? 'misses several, or another' : 'not feasible', STAR);
  const crosses = [...misses.values(), several];
  return {
    all: [...fronts, ...feasible, ...crosses],
    isByMetal: names !== null,
    legend: (drawn) => [
      ...fronts.map(({ name }) => name).filter((name) => drawn.has(name) || drawn.has(`${name}, feasible`)),
      ...(feasible.some(({ name }) => drawn.has(name)) ? [open.name] : []),
      ...crosses.map(({ name }) => name).filter((name) => drawn.has(name)),
    ],
    onFront: (values, row) => fronts[v === null ? 0 : values[row * width + v]!]!,
    feasible: (values) => feasible[v === null ? 0 : values[v]!]!,
    missing: (unmet) => misses.get(unmet >>> 0) ?? several,
  };
}

/** Shape, fill and stroke by kind, with one legend for the three. */
function kindScales({ all, legend }: Kinds, drawn: readonly Marked[]) {
  const values = legend(new Set(drawn.map(({ kind }) => kind)));
  const channel = (what: 'shape' | 'fill' | 'stroke') => ({
    field: 'kind',
    type: 'nominal',
    scale: { domain: all.map(({ name }) => name), range: all.map((kind) => kind[what]) },
    legend: {
      title: null,
      orient: 'top',
      direction: 'horizontal',
      columns: legendColumns(values, WIDTH + 50),
      values,
      symbolSize: 50,
      columnPadding: 18,
    },
  });
  return { shape: channel('shape'), fill: channel('fill'), stroke: channel('stroke') };
}
