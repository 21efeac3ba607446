/**
 * Lines of a CSV table from cells, for `src/store/csv-lines.ts`: in WebAssembly, because printing seventeen digits takes
 * 64-bit integers, which JavaScript has none of that are fast. AssemblyScript; `npm run build:csv-lines` compiles it into
 * `src/store/csv-lines-wasm.ts`, which is kept with the sources.
 *
 * Digits: the shortest that read back as the number, of these the closest, by R. Giulietti's Schubfach (The Schubfach way to
 * render doubles, 2020): the number times a power of ten from a table, 64 by 128 bits. The ends of the interval that reads back
 * as the number are that product more and less a multiple of the power, to the same bits as by two more products. Laid out as
 * ECMA-262 does (Number::toString, 6.1.6.1.20), so that they are what `String` gives.
 */

/** Powers of ten from 10^LEAST_POWER on, 128 bits each, high half first, the highest bit set, rounded up. */
const POWERS: usize = 0x400;
const LEAST_POWER: i32 = -292;
/** Texts of two digits. */
const PAIRS: usize = 0x3000;
/** Digits of the number in hand. */
const DIGITS: usize = 0x3200;

/** From here on the memory is laid out by JavaScript. */
export function free(): usize {
  return 0x4000;
}

export function powers(): usize {
  return POWERS;
}

export function prepare(): void {
  for (let i: u32 = 0; i < 100; i++) {
    store<u8>(PAIRS + 2 * i, <u8>(48 + i / 10));
    store<u8>(PAIRS + 2 * i + 1, <u8>(48 + (i % 10)));
  }
}

/** Rows that are written at once. */
const STRIDE: usize = 32;

export function stride(): usize {
  return STRIDE;
}

// @ts-ignore: decorator
@inline
function high(a: u64, b: u64): u64 {
  const a0 = a & 0xffffffff;
  const a1 = a >> 32;
  const b0 = b & 0xffffffff;
  const b1 = b >> 32;
  const p01 = a0 * b1;
  const p10 = a1 * b0;
  const middle = (a0 * b0 >> 32) + (p01 & 0xffffffff) + (p10 & 0xffffffff);
  return a1 * b1 + (p01 >> 32) + (p10 >> 32) + (middle >> 32);
}

/** The high 64 bits of 192, `middle` the next, the lowest set where anything is left below. */
// @ts-ignore: decorator
@inline
function toOdd(top: u64, middle: u64): u64 {
  return top | <u64>(middle > 1);
}

/** Shortest digits and power of ten of a number; the power in `decimalExponent`. */
let decimalExponent: i32 = 0;

function shortest(bits: u64): u64 {
  const fraction = bits & 0xfffffffffffff;
  const biased = <i32>((bits >> 52) & 0x7ff);
  let c: u64;
  let q: i32;
  if (biased != 0) {
    c = fraction | 0x10000000000000;
    q = biased - 1075;
    if (q <= 0 && q > -53 && (c & ((<u64>1 << <u64>-q) - 1)) == 0) {
      decimalExponent = 0;
      return c >> <u64>-q;
    }
  } else {
    c = fraction;
    q = -1074;
  }
  const isEven = (c & 1) == 0;
  const isCloser = fraction == 0 && biased > 1;
  const cb = 4 * c;
  const k = (q * 1262611 - (isCloser ? 524031 : 0)) >> 22;
  const h = <u64>(q + ((-k * 1741647) >> 19) + 1);
  const at = POWERS + <usize>((-k - LEAST_POWER) * 16);
  const gHigh = load<u64>(at);
  const gLow = load<u64>(at + 8);
  // g times c, 192 bits; the ends lie g 2^up above and g 2^down below, 1 to 5 bits up
  const scaled = cb << h;
  const low = gLow * scaled;
  const carried = high(gLow, scaled);
  const middle = gHigh * scaled + carried;
  const top = high(gHigh, scaled) + <u64>(middle < carried);
  const vb = toOdd(top, middle);
  const up = h + 1;
  const upLow = gLow << up;
  const upMiddle = (gHigh << up) | (gLow >> (64 - up));
  const rightMiddle = middle + upMiddle;
  const upCarry = <u64>(low + upLow < low);
  const rightNext = rightMiddle + upCarry;
  const vbr = toOdd(
    top + (gHigh >> (64 - up)) + <u64>(rightMiddle < middle) + <u64>(rightNext < upCarry),
    rightNext,
  );
  const down = up - <u64>isCloser;
  const downMiddle = (gHigh << down) | (gLow >> (64 - down));
  const leftMiddle = middle - downMiddle;
  const downCarry = <u64>(low < gLow << down);
  const vbl = toOdd(
    top - (gHigh >> (64 - down)) - <u64>(middle < downMiddle) - <u64>(leftMiddle < downCarry),
    leftMiddle - downCarry,
  );
  const lower = vbl + <u64>!isEven;
  const upper = vbr - <u64>!isEven;
  const s = vb >> 2;
  if (s >= 10) {
    const sp = s / 10;
    const isDownInside = lower <= 40 * sp;
    const isUpInside = 40 * sp + 40 <= upper;
    if (isDownInside != isUpInside) {
      decimalExponent = k + 1;
      return sp + <u64>isUpInside;
    }
  }
  const isDownInside = lower <= 4 * s;
  const isUpInside = 4 * s + 4 <= upper;
  decimalExponent = k;
  if (isDownInside != isUpInside) return s + <u64>isUpInside;
  const half = 4 * s + 2;
  return s + <u64>(vb > half || (vb == half && (s & 1) != 0));
}

/** Writes the decimal digits of a number below 10^20 to DIGITS; their count. */
function digitsOf(value: u64): i32 {
  // from behind, two at a time
  let at: usize = DIGITS + 24;
  while (value >= 100000000) {
    const rest = value / 100000000;
    let low = <u32>(value - rest * 100000000);
    value = rest;
    for (let i = 0; i < 4; i++) {
      const next = low / 100;
      at -= 2;
      store<u16>(at, load<u16>(PAIRS + 2 * (low - next * 100)));
      low = next;
    }
  }
  let last = <u32>value;
  while (last >= 100) {
    const next = last / 100;
    at -= 2;
    store<u16>(at, load<u16>(PAIRS + 2 * (last - next * 100)));
    last = next;
  }
  if (last >= 10) {
    at -= 2;
    store<u16>(at, load<u16>(PAIRS + 2 * last));
  } else {
    at--;
    store<u8>(at, <u8>(48 + last));
  }
  const count = <i32>(DIGITS + 24 - at);
  // to where they are read with whole words
  store<u64>(DIGITS + 32, load<u64>(at));
  store<u64>(DIGITS + 40, load<u64>(at + 8));
  store<u64>(DIGITS + 48, load<u64>(at + 16));
  return count;
}

/** Writes a finite number at `end`; where it ends. */
function number(value: f64, end: usize): usize {
  const bits = reinterpret<u64>(value);
  if (bits << 1 == 0) {
    store<u8>(end, 48);
    return end + 1;
  }
  if (bits >> 63) store<u8>(end++, 45);
  let count = digitsOf(shortest(bits));
  const digits: usize = DIGITS + 32;
  const n = count + decimalExponent;
  while (load<u8>(digits + count - 1) == 48) count--;
  if (n > 0 && n <= 21) {
    if (count <= n) {
      copy(end, digits, count);
      end += count;
      for (let i = count; i < n; i++) store<u8>(end++, 48);
      return end;
    }
    copy(end, digits, n);
    store<u8>(end + n, 46);
    copy(end + n + 1, digits + n, count - n);
    return end + count + 1;
  }
  if (n <= 0 && n > -6) {
    store<u8>(end++, 48);
    store<u8>(end++, 46);
    for (let i = n; i < 0; i++) store<u8>(end++, 48);
    copy(end, digits, count);
    return end + count;
  }
  store<u8>(end++, load<u8>(digits));
  if (count > 1) {
    store<u8>(end++, 46);
    copy(end, digits + 1, count - 1);
    end += count - 1;
  }
  store<u8>(end++, 101);
  let exponent = n - 1;
  store<u8>(end++, exponent < 0 ? 45 : 43);
  if (exponent < 0) exponent = -exponent;
  if (exponent >= 100) store<u8>(end++, <u8>(48 + exponent / 100));
  if (exponent >= 10) store<u8>(end++, <u8>(48 + ((exponent / 10) % 10)));
  store<u8>(end++, <u8>(48 + (exponent % 10)));
  return end;
}

/** Whole words: up to 7 bytes behind are written over, and filled later. */
// @ts-ignore: decorator
@inline
function copy(to: usize, from: usize, count: i32): void {
  for (let i = 0; i < count; i += 8) store<u64>(to + i, load<u64>(from + i));
}

/**
 * Writes rows of cells at `end`; where they end. Cells stand column after column, `STRIDE + 1` each: first that above the
 * first row.
 * @param words for each column 0, or where its texts stand: by code, four bytes of length and four of place
 * @param places for each column, where the text of the cell above stands and where it ends
 */
export function lines(cells: usize, rows: u32, width: u32, words: usize, places: usize, end: usize): usize {
  for (let row: u32 = 0; row < rows; row++) {
    let cell = cells + 8 * <usize>row;
    for (let column: u32 = 0; column < width; column++) {
      const above = load<f64>(cell);
      const value = load<f64>(cell + 8);
      cell += 8 * (STRIDE + 1);
      const start = end;
      const place = places + 8 * <usize>column;
      if (value == above) {
        const from = load<u32>(place);
        const count = <i32>(load<u32>(place + 4) - from);
        copy(end, from, count);
        end += count;
      } else {
        const texts = load<u32>(words + 4 * <usize>column);
        if (texts != 0) {
          const text = <usize>(texts + 8 * <u32>value);
          const count = load<i32>(text);
          copy(end, load<u32>(text + 4), count);
          end += count;
        } else if (value - value == 0) {
          end = number(value, end);
        } else if (value == value) {
          if (value < 0) store<u8>(end++, 45);
          store<u8>(end, 73);
          store<u8>(end + 1, 78);
          store<u8>(end + 2, 70);
          end += 3;
        }
      }
      store<u32>(place, <u32>start);
      store<u32>(place + 4, <u32>end);
      store<u8>(end++, column + 1 == width ? 10 : 44);
    }
  }
  return end;
}
