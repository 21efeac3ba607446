import * as vega from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { type Config, compile, type TopLevelSpec } from 'vega-lite';
import { FONT, INK, TEXT_SIZE } from './palette.ts';
import { textWidth } from './text-width.ts';
import { tidySvg } from './tidy-svg.ts';

interface TextItem {
  readonly fontSize?: number;
}
interface TextMetrics {
  width: (item: TextItem, text: string | readonly string[]) => number;
}

// Without a canvas Vega takes every character for 0.8 of the font size, which leaves holes in a layout. It lets its user
// measure instead, but its types do not show it.
(vega as unknown as { textMetrics: TextMetrics }).textMetrics.width = (
  { fontSize = TEXT_SIZE.label },
  text,
) => Math.max(...[text].flat().map((line) => textWidth(String(line), fontSize)));

const CONFIG: Config = {
  background: INK.paper,
  font: FONT,
  padding: 4,
  view: { stroke: null },
  axis: {
    domainColor: INK.text,
    tickColor: INK.text,
    tickSize: 5,
    gridColor: INK.rule,
    gridOpacity: 0.6,
    labelColor: INK.text,
    labelFontSize: TEXT_SIZE.label,
    labelPadding: 4,
    titleColor: INK.text,
    titleFontSize: TEXT_SIZE.title,
    titleFontWeight: 'normal',
    titlePadding: 8,
  },
  legend: {
    labelColor: INK.text,
    labelFontSize: TEXT_SIZE.label,
    labelLimit: 420,
    symbolSize: 50,
    gradientStrokeColor: INK.paper,
    titleColor: INK.text,
    titleFontSize: TEXT_SIZE.title,
    titleFontWeight: 'normal',
  },
  title: {
    color: INK.text,
    subtitleColor: INK.quiet,
    fontSize: TEXT_SIZE.title,
    fontWeight: 'normal',
    anchor: 'start',
    offset: 10,
  },
};

/**
 * A Vega-Lite chart as SVG text, made without a browser. Vega's expressions are interpreted, never compiled to code,
 * and no data is fetched: a chart carries its own.
 *
 * @param alt what the chart shows, for those who do not see it
 */
export async function renderChart(spec: TopLevelSpec, alt: string): Promise<string> {
  const compiled = compile({ ...spec, config: CONFIG }, { logger: strict() }).spec;
  const runtime = vega.parse(compiled, undefined, { ast: true });
  const view = new vega.View(runtime, {
    expr: expressionInterpreter,
    renderer: 'none',
    logLevel: vega.Warn,
    logger: strict(),
  });
  try {
    return tidySvg(await view.toSVG(), alt);
  } finally {
    view.finalize();
  }
}

/** A chart that Vega has doubts about is a bug of this program. */
function strict() {
  const refuse = (...messages: unknown[]): never => {
    throw new Error(`chart: ${messages.map(String).join(' ')}`);
  };
  const logger = {
    level: () => logger,
    error: refuse,
    warn: refuse,
    info: () => logger,
    debug: () => logger,
  };
  return logger as never;
}
