/**
 * A table's bytes as text: UTF-8, UTF-16 where a byte order mark shows it, or else the 8-bit encoding that spreadsheets of
 * western Europe save (windows-1252). Numbers are the same in all of them. `odd` is where a byte belongs to none.
 */
export function decodeTable(source: Uint8Array): { readonly text: string; readonly odd: number | null } {
  if (source[0] === 0xff && source[1] === 0xfe)
    return { text: new TextDecoder('utf-16le').decode(source), odd: null };
  if (source[0] === 0xfe && source[1] === 0xff)
    return { text: new TextDecoder('utf-16be').decode(source), odd: null };
  const lenient = new TextDecoder('utf-8', { ignoreBOM: true }).decode(source);
  const odd = lenient.indexOf('\ufffd');
  if (odd < 0) return { text: lenient, odd: null };
  const western = new TextDecoder('windows-1252').decode(source);
  // letters with accents, signs of units; not the controls of a binary file
  const isText = [...source].every((byte) => byte >= 0x20 || byte === 0x09 || byte === 0x0a || byte === 0x0d);
  return isText ? { text: western, odd: null } : { text: lenient, odd };
}
