/** An SVG as what it draws and where: everything but coordinates, and the coordinates. */
export interface SvgShape {
  readonly drawn: string;
  readonly coordinates: readonly number[];
}

const GEOMETRY = / (?:transform|d|x|y|x1|x2|y1|y2|cx|cy|r|width|height|viewBox|stroke-dasharray)="[^"]*"/g;

export function svgShape(svg: string): SvgShape {
  const coordinates: number[] = [];
  const drawn = svg.trim().replace(GEOMETRY, (attribute) =>
    attribute.replace(/-?\d+(?:\.\d+)?/g, (number) => {
      coordinates.push(Number(number));
      return '#';
    }),
  );
  return { drawn: drawn.replaceAll('><', '>\n<'), coordinates };
}

/** How far apart two sets of coordinates are, px; infinite where they are not as many. */
export function farthest(a: SvgShape, b: SvgShape): number {
  if (a.coordinates.length !== b.coordinates.length) return Number.POSITIVE_INFINITY;
  return a.coordinates.reduce((most, x, i) => Math.max(most, Math.abs(x - b.coordinates[i]!)), 0);
}
