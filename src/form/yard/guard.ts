import { createHash, timingSafeEqual } from 'node:crypto';
import { slug } from '../../record/measures.js';

/** Where a request that is let in leads. */
export type Place =
  | { readonly at: 'farms' }
  | { readonly at: 'farm'; readonly farm: string }
  | { readonly at: 'animal'; readonly farm: string; readonly animal: string };

/**
 * Whether a request is let in, and where it leads; undefined for every other, which is told nothing.
 *
 * The `Host` must be one this program was asked for: a name elsewhere that points here (DNS rebinding) is not. The
 * token is compared in a time that does not hang on how much of it is right.
 *
 * Checked: tests/form/yard/guard.test.ts
 */
export function placeOf(
  { host, path }: { readonly host: string | undefined; readonly path: string },
  { token, hosts }: { readonly token: string; readonly hosts: readonly string[] },
): Place | undefined {
  if (host === undefined || !hosts.includes(host.toLowerCase())) return undefined;
  const [before, given = '', ...rest] = path.split('/');
  if (before !== '' || !isSame(given, token)) return undefined;
  const [farm, animal, ...more] = rest;
  if (farm === '' && animal === undefined) return { at: 'farms' };
  if (farm === undefined || animal === undefined || more.length > 0 || !slug.safeParse(farm).success)
    return undefined;
  if (animal === '') return { at: 'farm', farm };
  return slug.safeParse(animal).success ? { at: 'animal', farm, animal } : undefined;
}

function isSame(given: string, token: string): boolean {
  const hash = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(hash(given), hash(token));
}
