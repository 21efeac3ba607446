/**
 * The inks of charts and drawings. A figure on its own is drawn in these; the page turns each into its counterpart for
 * a dark screen (page/page-style.ts), which is why a chart uses no other colour. Against paper: texts at least 7:1,
 * thin marks at least 3:1.
 */
export const INK = Object.freeze({
  paper: '#ffffff',
  text: '#15181c',
  quiet: '#4d555e',
  rule: '#c7ccd2',
  front: '#0a4a86',
  feasible: '#5b7c9d',
  others: '#8b8b8b',
  second: '#7d3f06',
  third: '#2b6631',
  fourth: '#6a2c78',
  aluminium: '#9fabb8',
  copper: '#c27f4e',
  steel: '#82888f',
  metal: '#a6a39a',
  heat: '#c62f12',
});

/** The same inks on a dark screen. */
export const INK_DARK: Readonly<Record<keyof typeof INK, string>> = Object.freeze({
  paper: '#15181b',
  text: '#e9ebed',
  quiet: '#b0b7bf',
  rule: '#41474e',
  front: '#79b8f3',
  feasible: '#6f94b8',
  others: '#828282',
  second: '#e2a86a',
  third: '#8ccb92',
  fourth: '#d0a0dd',
  aluminium: '#6b7887',
  copper: '#b06f40',
  steel: '#83898f',
  metal: '#85827a',
  heat: '#ff8566',
});

/** From little to much, for maps of cells. */
export const RAMP = Object.freeze([
  '#e6eef6',
  '#c3d7ea',
  '#9dbedc',
  '#74a3cb',
  '#4b86b6',
  '#286899',
  '#0f4a76',
]);
export const RAMP_DARK = Object.freeze([
  '#1d2b38',
  '#224058',
  '#2b577a',
  '#3a719c',
  '#568dba',
  '#7dabd3',
  '#abcbe8',
]);

/** Curves that must be distinguished: by ink, dash and mark, so that no one of them is needed. */
export const CURVES = Object.freeze([
  { ink: INK.front, dash: [1, 0], mark: 'circle' },
  { ink: INK.second, dash: [7, 3], mark: 'square' },
  { ink: INK.third, dash: [2, 3], mark: 'triangle-up' },
  { ink: INK.fourth, dash: [9, 3, 2, 3], mark: 'diamond' },
  { ink: INK.text, dash: [4, 4], mark: 'cross' },
  { ink: INK.quiet, dash: [12, 4], mark: 'triangle-down' },
]);

/**
 * What is on any machine; a figure must not fetch a font. Arial first: Windows and macOS have it, and both fontconfig and
 * LibreOffice, which looks at the first name alone, know a font of the same widths for it.
 */
export const FONT = 'Arial, Helvetica, sans-serif';

/** Text sizes in px; a figure of 680 px fills the width of an A4 page, where they become 9 and 10 points. */
export const TEXT_SIZE = Object.freeze({ label: 12, title: 13 });
