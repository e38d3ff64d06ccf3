import type { Lesion } from './lesion.js';
import type { Visit } from './visit.js';
import type { LesionCode } from './words.js';

/**
 * The code a lesion goes by at a visit: as declared, until a finding renames it.
 *
 * Shape:   `upTo` is a position in `visits`, that visit included; a name changed there counts from there on
 * Checked: tests/record/code-of-lesion.test.ts
 * @example codeOn('a', { code: 'WL', foot: 'LH' }, [{ found: { a: { code: 'SU' } } }], 0) // → 'SU'
 */
export function codeOn(name: string, lesion: Lesion, visits: readonly Visit[], upTo: number): LesionCode {
  for (let at = Math.min(upTo, visits.length - 1); at >= 0; at -= 1) {
    const renamed = visits[at]?.found?.[name]?.code;
    if (renamed) return renamed;
  }
  return lesion.code;
}
