/**
 * Lines of a CSV table from cells, for `src/store/csv-lines.ts`: in WebAssembly, because printing seventeen digits takes
 * 64-bit integers, which JavaScript has none of that are fast. AssemblyScript; `npm run build:csv-lines` compiles it into
 * `src/store/csv-lines-wasm.ts`, which is kept with the sources.
 *
 * Digits: the shortest that read back as the number, of these the closest, by R. Giulietti's Schubfach (The Schubfach way to
 * render doubles, 2020): the number times a power of ten from a table, 64 by 128 bits. The ends of the interval that reads back
 * as the number are that product more and less a multiple of the power, to the same bits as by two more products. For nearly
 * every number half of the product settles them. Laid out as ECMA-262 does (Number::toString, 6.1.6.1.20), so that they are what
 * `String` gives.
 */

/** Powers of ten from 10^LEAST_POWER on, 128 bits each, high half first, the highest bit set, rounded up. */
const POWERS: usize = 0x400;
const LEAST_POWER: i32 = -292;
/** From here on the memory is laid out by JavaScript. */
export function free(): usize {
  return 0x4000;
}

export function powers(): usize {
  return POWERS;
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

/** Power of ten of the digits that `shortest` found last. */
let decimalExponent: i32 = 0;

/** In 2^59 parts of the last digit: more than the lower half of a power of ten adds, and rounding with it. */
const LEFT_OUT: u64 = (1 << 52) + 16;

/**
 * Where the shortest digits of a number have fewer places than others, zeros stand behind them. The upper half of the power
 * of ten settles 99 numbers of 100: they come as seventeen or sixteen digits and 2^59 parts of the last, of which what was left
 * out could change nothing. The rest, and numbers whose interval is not as wide below as above, are worked out to the last bit.
 */
function shortest(bits: u64): u64 {
  const fraction = bits & 0xfffffffffffff;
  const biased = <i32>((bits >> 52) & 0x7ff);
  if (fraction == 0 || biased == 0) return shortestOfAny(bits);
  const c = fraction | 0x10000000000000;
  const q = biased - 1075;
  if (q <= 0 && q > -53 && (c & ((<u64>1 << <u64>-q) - 1)) == 0) {
    decimalExponent = 0;
    return c >> <u64>-q;
  }
  const k = (q * 1262611) >> 22;
  const h = <u64>(q + ((-k * 1741647) >> 19) + 1);
  const g = load<u64>(POWERS + <usize>((-k - LEAST_POWER) * 16));
  const scaled = (4 * c) << h;
  const top = high(g, scaled);
  const s = top >> 2;
  const parts = ((top & 3) << 57) | ((g * scaled) >> 7);
  // 2^31 leaves 8 when divided by ten
  const last = <u64>((<u32>(s & 0x7fffffff) + 8 * <u32>(s >> 31)) % 10);
  const below = (last << 59) | parts;
  const above = TEN - below;
  const reach = g >> (6 - h);
  // each negative where it is so
  const toDown = below - reach;
  const toUp = above - reach;
  const toHalf = HALF - parts;
  if (8 - toDown <= LEFT_OUT || toUp + 8 <= LEFT_OUT || toHalf + 8 <= LEFT_OUT) return shortestOfAny(bits);
  decimalExponent = k;
  const isDown = toDown >> 63;
  const isUp = toUp >> 63;
  return pick(isDown | isUp, s - last + 10 * isUp, s + (toHalf >> 63));
}

/** In 2^59 parts of the last digit. */
const TEN: u64 = 10 << 59;
const HALF: u64 = 1 << 58;

function shortestOfAny(bits: u64): u64 {
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
  const isOdd = c & 1;
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
  const lower = vbl + isOdd;
  const upper = vbr - isOdd;
  decimalExponent = k;
  // which digits are taken differs from number to number: 0 and 1 and no branches, half of which would be foreseen wrong
  const s = vb >> 2;
  const tenth = s / 10;
  const isDownTenth = <u64>(lower <= 40 * tenth);
  const isUpTenth = <u64>(40 * tenth + 40 <= upper);
  const isTenth = (isDownTenth ^ isUpTenth) & <u64>(s >= 10);
  const isDown = <u64>(lower <= 4 * s);
  const isUp = <u64>(4 * s + 4 <= upper);
  const half = 4 * s + 2;
  const isNearUp = <u64>(vb > half) | (<u64>(vb == half) & s);
  return pick(isTenth, 10 * (tenth + isUpTenth), s + pick(isDown ^ isUp, isUp, isNearUp & 1));
}

/** The first where `is` is 1, the second where it is 0. */
// @ts-ignore: decorator
@inline
function pick(is: u64, first: u64, second: u64): u64 {
  return second ^ ((first ^ second) & (0 - is));
}

/** The digits of a number below 10^8, a byte each, the first lowest: four, two and one of them at a time. */
// @ts-ignore: decorator
@inline
function eightDigits(value: u32): u64 {
  const thousands = value / 10000;
  const fours = <u64>thousands | (<u64>(value - 10000 * thousands) << 32);
  const hundreds = ((fours * 10486) >> 20) & 0x7f0000007f;
  const twos = hundreds | ((fours - 100 * hundreds) << 16);
  const tens = ((twos * 103) >> 10) & 0x0f000f000f000f;
  return tens | ((twos - 10 * tens) << 8);
}

/** Eight times the digit 0. */
const ZEROS: u64 = 0x3030303030303030;
/** `0.000000`. */
const BELOW_ONE: u64 = 0x3030303030302e30;
const POINT: u64 = 46;

/**
 * Writes a finite number at `end`; where it ends. Its digits, seventeen with the zeros behind them, are put together in three
 * words and written at once: what is written byte by byte and read back as a word keeps the processor waiting.
 */
function number(value: f64, end: usize): usize {
  const bits = reinterpret<u64>(value);
  if (bits << 1 == 0) {
    store<u8>(end, 48);
    return end + 1;
  }
  store<u8>(end, 45);
  end += <usize>(bits >> 63);
  let digits = shortest(bits);
  // so many of them stand before the point
  let n = decimalExponent + 17;
  const isShort = <u64>(digits < 10000000000000000);
  digits *= 1 + 9 * isShort;
  n -= <i32>isShort;
  while (digits < 10000000000000000) {
    digits *= 10;
    n--;
  }
  const leading = digits / 100000000;
  const first = <u32>leading / 100000000;
  const next = eightDigits(<u32>leading - 100000000 * first);
  const last = eightDigits(<u32>(digits - 100000000 * leading));
  const count =
    last != 0 ? 17 - (<i32>clz(last) >> 3) : next != 0 ? 9 - (<i32>clz(next) >> 3) : 1;
  const a = <u64>first | (next << 8) | ZEROS;
  const b = (next >> 56) | (last << 8) | ZEROS;
  const c = (last >> 56) | ZEROS;
  if (n > 0 && n <= 21) {
    if (count <= n) {
      put(end, a, b, c);
      return end + n;
    }
    // all of them one place on, then those before the point, and the point
    put(end + 1, a, b, c);
    if (n < 8) store<u64>(end, withPoint(a, n));
    else {
      store<u64>(end, a);
      if (n < 16) store<u64>(end + 8, withPoint(b, n - 8));
      else {
        store<u64>(end + 8, b);
        store<u8>(end + 16, <u8>POINT);
      }
    }
    return end + count + 1;
  }
  if (n <= 0 && n > -6) {
    store<u64>(end, BELOW_ONE);
    end += 2 - n;
    put(end, a, b, c);
    return end + count;
  }
  put(end + 1, a, b, c);
  store<u8>(end++, <u8>a);
  if (count > 1) {
    store<u8>(end, <u8>POINT);
    end += count;
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

/** Up to 23 bytes behind a number's last are written over, and filled later. */
// @ts-ignore: decorator
@inline
function put(at: usize, a: u64, b: u64, c: u64): void {
  store<u64>(at, a);
  store<u64>(at + 8, b);
  store<u64>(at + 16, c);
}

/** Eight bytes of a number with the point after `n` of them, 0 to 7; the last digit falls off. */
// @ts-ignore: decorator
@inline
function withPoint(word: u64, n: i32): u64 {
  const place = <u64>(8 * n);
  const before = word & ((<u64>1 << place) - 1);
  return before | (POINT << place) | ((word ^ before) << 8);
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
