/** Writes a whole number, 0 or more, seven bits a byte, the lowest first (LEB128); where it ends. */
export function writeVarint(into: Uint8Array, at: number, value: number): number {
  let rest = value;
  let end = at;
  while (rest >= 128) {
    into[end++] = (rest % 128) + 128;
    rest = Math.floor(rest / 128);
  }
  into[end++] = rest;
  return end;
}
