/** Control characters, marks that reorder text, lone surrogates and what XML forbids; tab and line feed stay. */
const HARMFUL =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff]|\p{Surrogate}/gu;

/** Text of a user, fit for HTML and XML alike: what could not be shown, or would reorder the rest, becomes `\ufffd`. */
export function cleanText(text: string): string {
  return text.replace(HARMFUL, '\ufffd');
}

/** At most `longest` characters, on one line. */
export function shortText(text: string, longest = 60): string {
  const line = cleanText(text).replace(/\s+/g, ' ').trim();
  const characters = [...line];
  return characters.length > longest ? `${characters.slice(0, longest - 1).join('')}…` : line;
}
