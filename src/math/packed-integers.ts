/**
 * Whole numbers as text, for tables that a page carries: most take one or two characters. Letters are the 90 of ASCII from
 * `!` to `~` without `&`, `'`, `<` and the backslash, so that neither a string nor a page has to escape one. A number d is
 * first made positive, z = 2 d or -2 d - 1. Then z is
 * below 60 one letter; else its first letter tells how many follow, one from 60 on, two from 75 on, three from 85 on.
 * test/fixtures/packed_integers.py packs.
 */
const BASE = 90;
/** Of a first letter: the least of its kind, the least number that takes so many letters, and how many follow. */
const KINDS = [
  { letter: 85, least: 82_410, follow: 3 },
  { letter: 75, least: 1410, follow: 2 },
  { letter: 60, least: 60, follow: 1 },
  { letter: 0, least: 0, follow: 0 },
] as const;

const DIGITS = new Map(
  Array.from({ length: 94 }, (_, i) => String.fromCharCode(33 + i))
    .filter((letter) => !"&'<\\".includes(letter))
    .map((letter, digit) => [letter, digit]),
);

/** The numbers of a packed text. Throws for a letter that is none. */
export function unpackIntegers(text: string): number[] {
  const values: number[] = [];
  let at = 0;
  const next = () => {
    const digit = DIGITS.get(text.charAt(at++));
    if (digit === undefined) throw new Error(`no packed number at ${at - 1}`);
    return digit;
  };
  while (at < text.length) {
    const first = next();
    const { letter, least, follow } = KINDS.find((kind) => first >= kind.letter)!;
    let z = first - letter;
    for (let i = 0; i < follow; i++) z = z * BASE + next();
    z += least;
    values.push(z % 2 === 0 ? z / 2 : -(z + 1) / 2);
  }
  return values;
}

/** Undoes differences from the value so many places before, in place. */
export function sumUp(values: number[], stride: number): void {
  for (let i = stride; i < values.length; i++) values[i]! += values[i - stride]!;
}
