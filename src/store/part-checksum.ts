import { createCipheriv, createHash } from 'node:crypto';

/**
 * The checksum of a part's bytes: 128 bits, hexadecimal. GMAC (NIST SP 800-38D) with a key that everybody knows: the bytes are
 * the coefficients of a polynomial over 2^128 elements, so that what a disk or a copy spoils is found as by any hash of that
 * length, five times as fast as by SHA-256. Whoever means to deceive can make bytes that fit, and could rename a part before: where
 * others are not trusted, `digest` counts.
 */
export function checksum(bytes: Uint8Array): string {
  const gmac = createCipheriv('aes-128-gcm', KEY, NONCE);
  gmac.setAAD(bytes);
  gmac.final();
  return gmac.getAuthTag().toString('hex');
}

const KEY = new Uint8Array(16);
const NONCE = new Uint8Array(12);

/**
 * The first half of the SHA-256 of bytes, or of text as UTF-8, hexadecimal: what is signed of a part, its checksum up to
 * format 3, and what marks whose it is and where its rows stand.
 */
export function digest(whole: string | Uint8Array): string {
  return createHash('sha256').update(whole).digest('hex').slice(0, 32);
}
