import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';

/** A value in its one canonical form, RFC 8785. Half a surrogate pair, which that form has no way to write, becomes U+FFFD. */
export function canonicalText(value: unknown): string {
  try {
    return canonicalize(value) ?? 'null';
  } catch {
    const whole = (_key: string, inner: unknown): unknown =>
      typeof inner === 'string' ? inner.replaceAll(/\p{Surrogate}/gu, '\ufffd') : inner;
    return canonicalize(JSON.parse(JSON.stringify(value, whole))) ?? 'null';
  }
}

/** SHA-256 of bytes, or of a text's UTF-8 bytes, hexadecimal. */
export function sha256Of(bytes: Uint8Array | string): string {
  return createHash('sha256').update(bytes).digest('hex');
}
