/** Small faults put into a source text, one at a time: would a test notice? */
export interface Mutation {
  /** A slot that is off by one; a unit that is ten times too large; a law with another sign, factor or operand. */
  readonly kind: 'slot' | 'unit' | 'law';
  readonly line: number;
  /** The changed line, as it was and as it becomes. */
  readonly before: string;
  readonly after: string;
  /** The whole text with this one fault. */
  readonly text: string;
}

interface Change {
  readonly kind: Mutation['kind'];
  readonly from: number;
  readonly to: number;
  readonly by: string;
}

/** A name with its members and indices, a number, or a call or a bracket without another one in it. */
const OPERAND = String.raw`(?:[\w.]+!?(?:\[[^\][]*\]!?)*(?:\([^()]*\))?|\([^()]*\))`;

const STRING_OR_COMMENT =
  /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\[\s\S])*`/g;

/** All faults of a source text, in the order of the text. */
export function mutationsOf(path: string, text: string): Mutation[] {
  const code = blank(text, STRING_OR_COMMENT);
  const changes = [...slotChanges(code), ...(path.endsWith('units.ts') ? unitChanges(text) : [])];
  if (!path.includes('/model/')) changes.push(...lawChanges(code));
  return changes
    .sort((a, b) => a.from - b.from || a.to - b.to)
    .map(({ kind, from, to, by }) => {
      const changed = text.slice(0, from) + by + text.slice(to);
      const start = text.lastIndexOf('\n', from - 1) + 1;
      return {
        kind,
        line: text.slice(0, from).split('\n').length,
        before: text.slice(start, text.indexOf('\n', to)).trim(),
        after: changed.slice(start, changed.indexOf('\n', from + by.length)).trim(),
        text: changed,
      };
    });
}

/** Of the same length, so that positions stay. */
function blank(text: string, pattern: RegExp): string {
  return text.replace(pattern, (token) => token.replace(/[^\n]/g, ' '));
}

/** `slotOf('coil.wire')` and `SLOT.wire` become the slot after it. */
function slotChanges(code: string): Change[] {
  const slots = /\bslotOf\( *\)|\b(?:SLOT|METAL_SLOTS|WINDING)\.\w+|\bLAYER_THICKNESS\b(?= *\])/g;
  return [...code.matchAll(slots)].map(({ index, 0: found }) => {
    const end = index + found.length;
    return { kind: 'slot', from: end, to: end, by: ' + 1' };
  });
}

/** The scale of a unit, one where none is written, and its offset. */
function unitChanges(text: string): Change[] {
  const units = /\bunit\('[^']*', D\.\w+(?:, ([^,)]+))?(?:, '[^']*', ([^,)]+))?/g;
  return [...text.matchAll(units)].flatMap(({ index, 0: found, 1: scale, 2: offset }): Change[] => {
    const end = index + found.length;
    if (scale === undefined) return [{ kind: 'unit', from: end, to: end, by: ', 10' }];
    const at = index + found.indexOf(`, ${scale}`) + 2;
    const larger: Change = { kind: 'unit', from: at, to: at + scale.length, by: `10 * ${scale}` };
    if (offset === undefined) return [larger];
    return [larger, { kind: 'unit', from: end - offset.length, to: end, by: `10 * ${offset}` }];
  });
}

function lawChanges(code: string): Change[] {
  const changes: Change[] = [];
  const change = (from: number, length: number, by: string) =>
    void changes.push({ kind: 'law', from, to: from + length, by });
  // a sign, and a factor that divides
  const other: Readonly<Record<string, string>> = { '+': '-', '-': '+', '*': '/', '/': '*' };
  for (const { index, 0: sign } of code.matchAll(/(?<= )[-+*/](?= )/g)) change(index, 1, other[sign]!);
  // a number that multiplies or divides
  for (const { index, 0: number } of code.matchAll(/(?<![\w.])\d[\d.]*(?:e-?\d+)?(?= [*/] )/g)) {
    change(index, number.length, `(10 * ${number})`);
  }
  // swapped operands
  const pair = new RegExp(
    String.raw`(?<![\w.)\]!] ?|[-*/] )(${OPERAND}) ([-/]) (${OPERAND})(?![\w.([])`,
    'g',
  );
  for (const { index, 0: found, 1: a, 2: sign, 3: b } of code.matchAll(pair)) {
    if (a !== b) change(index, found.length, `${b} ${sign} ${a}`);
  }
  // the largest of two numbers is the same either way
  const call = /(?<=\w\()(?<!\bMath\.(?:max|min|hypot)\()([\w.]+), ([\w.]+)(?=[,)])/g;
  for (const { index, 0: found, 1: a, 2: b } of code.matchAll(call)) {
    if (a !== b) change(index, found.length, `${b}, ${a}`);
  }
  return changes;
}
