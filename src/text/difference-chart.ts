/** A bar of the chart: its label, its value as text, and where it ends, from -1 to 1. */
export interface Bar {
  readonly label: string;
  readonly value: string;
  readonly at: number;
  /** Half the length of its whiskers, on the same scale; 0 for none. */
  readonly uncertainty: number;
}

const NARROWEST = 21;

/** Bars to both sides of a zero line, one a line: `o` the value, `-` its uncertainty, `=` from zero to it. */
export function differenceChart(bars: readonly Bar[], width: number): string[] {
  const labels = Math.max(...bars.map(({ label }) => label.length));
  const values = Math.max(...bars.map(({ value }) => value.length));
  const half = Math.floor((Math.max(NARROWEST, width - labels - values - 4) - 1) / 2);
  const place = (fraction: number) => half + Math.round(Math.min(1, Math.max(-1, fraction)) * half);
  return bars.map(({ label, value, at, uncertainty }) => {
    const cells = new Array<string>(2 * half + 1).fill(' ');
    const fill = (from: number, to: number, sign: string) => cells.fill(sign, from, to + 1);
    const end = place(at);
    if (uncertainty > 0) fill(place(at - uncertainty), place(at + uncertainty), '-');
    fill(Math.min(half, end), Math.max(half, end), '=');
    cells[half] = '|';
    cells[end] = 'o';
    return `${label.padStart(labels)}  ${value.padStart(values)}  ${cells.join('').trimEnd()}`;
  });
}
