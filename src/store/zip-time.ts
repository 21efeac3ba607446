/**
 * A zip archive (PKWARE APPNOTE 6.3.10, 4.3: each value little-endian) with one fixed time for all its files: packages write
 * the present one, and the same study gives the same bytes. Changes the archive in place and returns it. For archives
 * without a comment, as packages make them.
 */
export function withFixedTime(archive: Uint8Array): Uint8Array {
  const view = new DataView(archive.buffer, archive.byteOffset, archive.byteLength);
  const end = archive.byteLength - END_LENGTH;
  expectSignature(view, end, END);
  const files = view.getUint16(end + 10, true);
  let entry = view.getUint32(end + 16, true);
  for (let i = 0; i < files; i++) {
    expectSignature(view, entry, ENTRY);
    view.setUint32(entry + 12, FIRST_TIME, true);
    const file = view.getUint32(entry + 42, true);
    expectSignature(view, file, FILE);
    view.setUint32(file + 10, FIRST_TIME, true);
    // name, extra field and comment follow; their lengths stand in the entry
    const after = [28, 30, 32].reduce((sum, at) => sum + view.getUint16(entry + at, true), 0);
    entry += ENTRY_LENGTH + after;
  }
  return archive;
}

const FILE = 0x04034b50;
const ENTRY = 0x02014b50;
const END = 0x06054b50;
const ENTRY_LENGTH = 46;
const END_LENGTH = 22;

/** 1 January 1980, 0:00: the first that the format has. Date in the upper half: day 1, month 1, year 0. */
const FIRST_TIME = 0x00210000;

function expectSignature(view: DataView, at: number, signature: number): void {
  if (at < 0 || at + 4 > view.byteLength || view.getUint32(at, true) !== signature) {
    throw new Error(`no zip archive as expected: ${signature.toString(16)} is not at ${at}`);
  }
}
