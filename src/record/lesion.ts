import { z } from 'zod';
import { group, type InnerPlace, key, type Key, may } from './key.js';
import { amended, shortName } from './measures.js';
import { calendarDay } from './calendar-day.js';
import { claws, feet, lesionCodes, sites, wallLines } from './words.js';

/** A lesion followed in one animal, as declared once; what was found at each visit is in the visits. */
export const lesion = group({
  code: key(z.enum(lesionCodes), { told: 'lesion', sheet: 'new 1/1 other', ask: 1, noted: 'lesion' }),
  foot: key(z.enum(feet), { told: 'foot', sheet: 'new 2/1 ring', ask: 2, noted: 'foot' }),
  claw: may(z.enum(claws), { told: 'claw', sheet: 'new 2/2 ring', ask: 3, noted: 'claw' }),
  site: may(z.enum(sites), { told: 'site', sheet: 'new 2/3 rest', ask: 4, noted: 'site' }),
  line: may(z.enum(wallLines), { told: 'line', sheet: 'new 2/4 short', ask: 5, noted: 'none' }),
  'again-of': may(shortName, { sheet: 'lines', noted: 'new' }),
  amended: key(amended, { form: 'none', sheet: 'none', noted: 'none' }),
} satisfies Record<string, Key<InnerPlace>>);
export type Lesion = z.infer<typeof lesion>;

/** A growth mark: a filed notch, or a groove left by a dated event. */
export const mark = group({
  foot: key(z.enum(feet), { told: 'foot', sheet: 'new-mark 1/1 ring', ask: 1, noted: 'none' }),
  claw: key(z.enum(claws), { told: 'claw', sheet: 'new-mark 1/2 ring', ask: 2, noted: 'none' }),
  line: key(z.enum(wallLines), { told: 'line', sheet: 'new-mark 1/3 ring', ask: 3, noted: 'none' }),
  // A groove is not filed: it is found later and declared at the desk.
  'groove-from': may(calendarDay, { sheet: 'none', ask: 4, noted: 'none' }),
  amended: key(amended, { form: 'none', sheet: 'none', noted: 'none' }),
} satisfies Record<string, Key<InnerPlace>>);
export type Mark = z.infer<typeof mark>;

const letters = [...'abcdefghijklnopqrstuvwxyz'];

/**
 * Short names for a lesion or a mark first met that none of hers has, the first to be taken first.
 *
 * Lesions: `a` to `z`, then `a2` and on, without `m`, which with a figure is a mark's name or a stage. Marks: `m1`, `m2`, ….
 * @example freeNames('lesions', ['a'])[0] // → 'b'
 */
export function freeNames(of: 'lesions' | 'marks', taken: readonly string[]): string[] {
  // One more of each than are taken: there is always a free one, and with one letter to each of a few.
  const rounds = Array.from({ length: taken.length + 1 }, (_, index) => index + 1);
  const all =
    of === 'marks'
      ? rounds.map((round) => `m${round}`)
      : rounds.flatMap((round) => letters.map((letter) => (round === 1 ? letter : `${letter}${round}`)));
  return all.filter((name) => !taken.includes(name));
}
