import { createHmac, timingSafeEqual } from 'node:crypto';

/**
 * Signatures of what goes through the queue: HMAC-SHA-256 (RFC 2104, FIPS 198-1) with a secret that the coordinator and
 * its workers share. What is signed names its kind, study and piece of work, so that nothing passes for anything else.
 * Without a secret nothing is signed, and nothing that is signed is taken.
 */
export interface Signer {
  readonly hasSecret: boolean;
  /** An empty text without a secret. */
  sign(...parts: readonly string[]): string;
  /** Null when the signature is right; otherwise what is wrong with it. */
  check(signature: string, ...parts: readonly string[]): string | null;
}

export function createSigner(secret: string | null): Signer {
  const sign = (...parts: readonly string[]) =>
    // JSON keeps the parts apart whatever they hold
    secret === null ? '' : createHmac('sha256', secret).update(JSON.stringify(parts)).digest('hex');
  return {
    hasSecret: secret !== null,
    sign,
    check(signature, ...parts) {
      if (secret === null) return signature === '' ? null : 'it is signed, and there is no secret here';
      if (signature === '') return 'it is not signed';
      const wanted = Buffer.from(sign(...parts));
      const found = Buffer.from(signature);
      return wanted.length === found.length && timingSafeEqual(wanted, found)
        ? null
        : 'it is signed with another secret';
    },
  };
}
