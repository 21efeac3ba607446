/**
 * Whole numbers as text, for tables that a page carries: most take one or two characters. Letters are the 90 of ASCII from
 * `!` to `~` without `&`, `'`, `<` and the backslash, so that neither a string nor a page has to escape one. A number d is
 * first made positive, z = 2 d or -2 d - 1. Then z is
 * below 60 one letter; else its first letter tells how many follow, one from 60 on, two from 75 on, three from 85 on.
 * test/fixtures/packed_integers.py packs.
 */
const BASE = 90;

/** By code of a letter: its digit; none where it is no letter. */
const DIGITS = new Int8Array(128).fill(-1);
for (let code = 33, digit = 0; code < 127; code++) {
  if (!"&'<\\".includes(String.fromCharCode(code))) DIGITS[code] = digit++;
}

/** The numbers of a packed text. Throws for a letter that is none. Loops without calls: it runs while the program loads. */
export function unpackIntegers(text: string): number[] {
  const values: number[] = [];
  const end = text.length;
  for (let at = 0; at < end; at++) {
    let z = DIGITS[text.charCodeAt(at)] ?? -1;
    let follow = 0;
    let least = 0;
    if (z >= 85) {
      z -= 85;
      follow = 3;
      least = 82_410;
    } else if (z >= 75) {
      z -= 75;
      follow = 2;
      least = 1410;
    } else if (z >= 60) {
      z -= 60;
      follow = 1;
      least = 60;
    } else if (z < 0) throw new Error(`no packed number at ${at}`);
    for (; follow > 0; follow--) {
      // past the end there is no code
      const digit = DIGITS[text.charCodeAt(++at)] ?? -1;
      if (digit < 0) throw new Error(`no packed number at ${at}`);
      z = z * BASE + digit;
    }
    z += least;
    values.push(z % 2 === 0 ? z / 2 : -(z + 1) / 2);
  }
  return values;
}

/** Undoes differences from the value so many places before, in place. */
export function sumUp(values: number[], stride: number): void {
  for (let i = stride; i < values.length; i++) values[i]! += values[i - stride]!;
}
