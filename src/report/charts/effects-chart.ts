import type { TopLevelSpec } from 'vega-lite';
import { toUnit, UNITS } from '../../model/units.ts';
import type { Bins } from '../../survey/level-bins.ts';
import type { MainEffect } from '../../survey/main-effects.ts';
import { shortText } from '../../text/clean-text.ts';
import { headText } from '../../text/number-text.ts';
import type { ReportInput } from '../report-input.ts';
import { domainOf, labelled, objectiveTitle } from './axis-title.ts';
import { category } from './category.ts';
import { INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

const ACROSS = 3;
const PANEL = { width: 172, height: 130 };
/** More bins than this stand so close that their marks must be small. */
const DENSE = 14;
const SERIES = ['mean of all designs', 'best feasible design'] as const;

/** A search visits promising designs more often: a mean over what it visited is of nothing. */
export function hasMeans({ plan }: Pick<ReportInput['study'], 'plan'>): boolean {
  return plan.kind === 'grid' || plan.kind === 'sobol';
}

/** What each varied input does to one objective: a panel an input, all with the same upward scale. */
export async function effectsChart(input: ReportInput, objective: number): Promise<string> {
  const { study, survey, objectiveLabels } = input;
  const { unit, sense } = study.objectives[objective]!;
  const effects = survey.effects.filter((effect) => effect.objective === objective);
  const shown = SERIES.slice(hasMeans(study) ? 0 : 1);
  const points = effects.map((effect) =>
    effectPoints(effect, (si) => toUnit(si, unit)).filter(({ series }) => shown.includes(series)),
  );
  const domain = domainOf(points.flat().map(({ value }) => value));
  const title = objectiveTitle(objectiveLabels[objective]!, study.objectives[objective]!);
  const spec = {
    title: { text: title },
    columns: ACROSS,
    spacing: { row: 26, column: 16 },
    concat: effects.map((effect, panel) => ({
      ...PANEL,
      data: { values: points[panel]! },
      encoding: {
        x: inputAxis(effect.bins, inputTitle(study.vary[effect.input]!), PANEL.width),
        y: {
          field: 'value',
          type: 'quantitative',
          scale: { domain, nice: false },
          axis: { title: null, tickCount: 5, labels: panel % ACROSS === 0 },
        },
      },
      layer: [
        {
          transform: [{ filter: { field: 'series', equal: SERIES[0] } }],
          mark: { type: 'line', aria: false, color: INK.front, strokeWidth: 1.6 },
        },
        {
          mark: {
            type: 'point',
            aria: false,
            opacity: 1,
            size: effect.bins.labels.length > DENSE ? 16 : 36,
            strokeWidth: 1.2,
          },
          encoding: seriesScales(shown),
        },
      ],
    })),
    resolve: { legend: { shape: 'shared', fill: 'shared', stroke: 'shared' } },
  };
  const alt =
    `${effects.length} panels, one for each varied input: ${hasMeans(study) ? 'mean and ' : ''}best feasible ${objectiveLabels[objective]} at each ` +
    `of its values (${sense === 'maximise' ? 'more' : 'less'} is better).`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

interface EffectPoint {
  readonly at: number | string;
  readonly series: (typeof SERIES)[number];
  readonly value: number;
}

function effectPoints({ bins, means, best }: MainEffect, shown: (si: number) => number): EffectPoint[] {
  return bins.labels.flatMap((label, i) =>
    [means[i]!, best[i]!].flatMap((si, s) =>
      Number.isFinite(si)
        ? [{ at: bins.positions[i] ?? category(label), series: SERIES[s]!, value: shown(si) }]
        : [],
    ),
  );
}

/** An axis `width` px wide of one input's values. */
export function inputAxis(bins: Bins, title: string, width: number) {
  if (bins.scale === 'named') {
    const names = bins.labels.map(category);
    return {
      field: 'at',
      type: 'ordinal',
      sort: names,
      scale: { domain: names, padding: 0.5 },
      axis: {
        title,
        labelAngle: -35,
        labelLimit: 90,
        labelOverlap: false,
        values: labelled(names, width / names.length, true),
        grid: false,
      },
    };
  }
  return {
    field: 'at',
    type: 'quantitative',
    scale: { type: bins.scale, nice: false, domain: domainOf(bins.positions, 0.04, bins.scale) },
    axis: { title, tickCount: 5, labelOverlap: 'greedy', grid: false },
  };
}

export function inputTitle(varied: ReportInput['study']['vary'][number]): string {
  const label = shortText(varied.name.replaceAll('_', ' '), 30);
  return headText(label, varied.kind === 'number' ? varied.unit : UNITS.one);
}

/** Filled dots on the line for means, diamonds for the best. */
function seriesScales(shown: readonly (typeof SERIES)[number][]) {
  const channel = (mean: string, best: string) => ({
    field: 'series',
    type: 'nominal',
    scale: { domain: shown, range: shown.length === 1 ? [best] : [mean, best] },
    legend: { title: null, orient: 'top', direction: 'horizontal', columnPadding: 18 },
  });
  return {
    shape: channel('circle', 'diamond'),
    fill: channel(INK.front, 'transparent'),
    stroke: channel(INK.front, INK.second),
  };
}
