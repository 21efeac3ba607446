/** Control characters, line and paragraph separators, and marks that reorder text on a screen. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u061c\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g;

/** One line of harmless text: control characters become blanks. */
export function cleanLine(text: string): string {
  return text.replace(CONTROL, ' ').trim();
}

/** As cleanLine, but keeps line breaks. */
export function cleanText(text: string): string {
  return text
    .split('\n')
    .map((line) => line.replace(CONTROL, ' ').trimEnd())
    .join('\n')
    .trim();
}

const QUOTED = 60;

/** A piece of the user's text for a message: one line, cut where it is long. */
export function quote(text: string): string {
  const line = cleanLine(text);
  const short = [...line].length > QUOTED ? `${[...line].slice(0, QUOTED - 1).join('')}…` : line;
  return `\`${short}\``;
}
