import { createHash } from 'node:crypto';

/**
 * The identity of a calendar entry: a UUID made of whose calendar, which farm and what it is about, never of a day.
 *
 * Source:  RFC 9562, version 8 (a name hashed by SHA-256); RFC 7986 asks for a UUID that tells nothing
 * @example entryUid('Quillfen Foot Trimming', 'quernholt', 'visit/1') // → '…-…-8…-…-…'
 */
export function entryUid(from: string, farm: string, key: string): string {
  const hex = createHash('sha256')
    .update(JSON.stringify([from, farm, key]))
    .digest('hex');
  const variant = ((Number.parseInt(hex[16]!, 16) & 0b0011) | 0b1000).toString(16);
  const [a, b, c, d] = [hex.slice(0, 8), hex.slice(8, 12), hex.slice(13, 16), hex.slice(17, 20)];
  return `${a}-${b}-8${c}-${variant}${d}-${hex.slice(20, 32)}`;
}
