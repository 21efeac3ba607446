import type { TopLevelSpec } from 'vega-lite';
import { toUnit } from '../../model/units.ts';
import type { ThinSample } from '../../survey/thin-sample.ts';
import { countText } from '../../text/number-text.ts';
import { letterOf } from '../letters.ts';
import type { ReportInput } from '../report-input.ts';
import { domainOf, objectiveTitle, scaleFor } from './axis-title.ts';
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
const CROSS = 'M-.7,-.7L.7,.7M.7,-.7L-.7,.7';
const KINDS = [
  { name: 'on the front', shape: 'circle', fill: INK.front, stroke: INK.front },
  { name: 'feasible', shape: 'circle', fill: 'transparent', stroke: INK.feasible },
  { name: 'not feasible', shape: CROSS, fill: 'transparent', stroke: INK.others },
] as const;

interface Place {
  readonly x: number;
  readonly y: number;
}

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
  const ofSample = ({ designs, objectives }: ThinSample, wanted: (design: number) => boolean) =>
    objectives.filter((_, i) => wanted(designs[i]!)).map((values) => place((o) => values[o]!));

  const dots = descriptions
    .map((description, row) => ({
      ...ofFront(row),
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
  const rings = ofSample(survey.feasibleSample, (design) => !onFront.has(design));
  const others = ofSample(survey.otherSample, () => true);
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
      color: INK.front,
      strokeWidth: 1.2,
      interpolate: xObjective.sense === 'minimise' ? 'step-after' : 'step-before',
    },
    encoding: axes,
  };
  const dotLayer = (values: typeof dots, look: typeof SPARSE) => ({
    data: { values },
    mark: { type: 'point', filled: true, opacity: 1, color: INK.front, stroke: INK.paper, ...look },
    encoding: { ...axes, href: { field: 'href' }, description: { field: 'description' } },
  });
  const shown = KINDS.filter((_, i) => [dots, rings, crosses][i]!.length > 0);
  const spec = {
    width: WIDTH,
    height: HEIGHT,
    layer: [
      {
        data: {
          values: [
            ...crosses.map((at) => ({ ...at, kind: KINDS[2].name })),
            ...rings.map((at) => ({ ...at, kind: KINDS[1].name })),
          ],
        },
        mark: { type: 'point', aria: false, size: 24, strokeWidth: 1.2, opacity: 1 },
        encoding: { ...axes, ...kindScales(shown) },
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

/** Shape, fill and stroke by kind, with one legend for the three. */
function kindScales(kinds: readonly (typeof KINDS)[number][]) {
  const domain = kinds.map(({ name }) => name);
  const channel = (what: 'shape' | 'fill' | 'stroke') => ({
    field: 'kind',
    type: 'nominal',
    scale: { domain, range: kinds.map((kind) => kind[what]) },
    legend: { title: null, orient: 'top', direction: 'horizontal', symbolSize: 50, columnPadding: 18 },
  });
  return { shape: channel('shape'), fill: channel('fill'), stroke: channel('stroke') };
}
