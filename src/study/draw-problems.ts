import type { Problem } from '../errors.ts';

/** Characters of a long line that are shown around the caret. */
const WINDOW = 100;
const TAB = '    ';

interface Line {
  readonly number: number;
  readonly column: number;
  readonly text: string;
  /** Of the problem, in UTF-16 units from the start of the line. */
  readonly start: number;
}

/** Where in a text a problem stands: line and column from 1, columns in characters. */
export function lineAt(text: string, offset: number): Line {
  const position = Math.min(Math.max(0, offset), text.length);
  const from = text.lastIndexOf('\n', position - 1) + 1;
  const end = text.indexOf('\n', position);
  const start = position - from;
  let number = 1;
  for (let i = text.indexOf('\n'); i >= 0 && i < position; i = text.indexOf('\n', i + 1)) number++;
  const line = text.slice(from, end < 0 ? text.length : end).replace(/\r$/, '');
  return { number, column: [...line.slice(0, start)].length + 1, text: line, start };
}

/** Bytes as text that problems can be shown in. */
export function sourceText(source: Uint8Array | string): string {
  return typeof source === 'string' ? source : new TextDecoder('utf-8', { ignoreBOM: true }).decode(source);
}

/** Safe on a terminal: a tab takes four columns, other control characters one. */
function show(text: string): string {
  return (
    text
      .replaceAll('\t', TAB)
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
      .replace(/[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g, '\ufffd')
  );
}

function drawOne(
  file: string,
  text: string,
  problems: readonly [Problem, ...Problem[]],
  lead: string,
): string {
  const [problem] = problems;
  const line = lineAt(text, problem.offset);
  let before = [...show(line.text.slice(0, line.start))];
  let marked = [...show(line.text.slice(line.start, line.start + problem.length))];
  let after = [...show(line.text.slice(line.start + problem.length))];
  if (before.length + marked.length + after.length > WINDOW) {
    if (before.length > WINDOW / 2) before = ['…', ...before.slice(1 - WINDOW / 2)];
    marked = marked.slice(0, WINDOW / 2);
    const room = WINDOW - before.length - marked.length;
    if (after.length > room) after = [...after.slice(0, Math.max(0, room - 1)), '…'];
  }
  const gutter = String(line.number);
  return [
    ...problems.map(
      ({ found, wanted }) =>
        `${file}:${line.number}:${line.column}: ${lead} ${show(found)}; wanted ${show(wanted)}`,
    ),
    `  ${gutter} | ${[...before, ...marked, ...after].join('')}`.trimEnd(),
    `  ${' '.repeat(gutter.length)} | ${' '.repeat(before.length)}${'^'.repeat(Math.max(1, marked.length))}`,
  ].join('\n');
}

/**
 * The problems of a study file as text: for each `FILE:LINE:COLUMN`, what was found and what is wanted, then
 * the line with a caret, once for all problems of one place. Columns count characters from 1. Bytes are decoded leniently, since the problem may
 * be that they are no text.
 */
export function drawProblems(
  fileName: string,
  source: Uint8Array | string,
  problems: readonly Problem[],
  lead = 'found',
): string {
  const text = sourceText(source);
  // several of one place have its line once
  const places: [Problem, ...Problem[]][] = [];
  for (const problem of problems) {
    const last = places.at(-1);
    if (last?.[0].offset === problem.offset && last[0].length === problem.length) last.push(problem);
    else places.push([problem]);
  }
  return places.map((each) => drawOne(show(fileName), text, each, lead)).join('\n\n');
}
