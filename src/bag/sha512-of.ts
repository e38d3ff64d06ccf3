import { createHash } from 'node:crypto';

/** The SHA-512 of what comes piece by piece, as 128 small hexadecimal digits. */
export function sha512Of(pieces: Iterable<Uint8Array>): string {
  const hash = createHash('sha512');
  for (const piece of pieces) hash.update(piece);
  return hash.digest('hex');
}

/**
 * Whether two checksums are one and the same with a slip in one of them.
 *
 * Any change to a file, however small, changes nearly all digits of its checksum (of 128 about 8 stay by chance). Where
 * most are the same, it is the list of checksums that was changed, not the file.
 */
export function isSlipOf(a: string, b: string): boolean {
  if (a === b || a.length !== b.length) return false;
  return [...a].filter((digit, index) => digit === b[index]).length > 64;
}
