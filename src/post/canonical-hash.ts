import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';

/** The SHA-256 of anything plain by its one byte form (RFC 8785), in hexadecimal. Absent keys count as not there. */
export function canonicalHash(content: object): string {
  const form = canonicalize(JSON.parse(JSON.stringify(content)) as object);
  if (form === undefined) throw new RangeError('nothing to hash');
  return createHash('sha256').update(form, 'utf8').digest('hex');
}
