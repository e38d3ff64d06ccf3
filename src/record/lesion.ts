import { z } from 'zod';
import { amended, shortName } from './measures.js';
import { calendarDay } from './calendar-day.js';
import { claws, feet, lesionCodes, sites, wallLines } from './words.js';

/** A lesion followed in one animal, as declared once; what was found at each visit stands in the visits. */
export const lesion = z.strictObject({
  code: z.enum(lesionCodes),
  foot: z.enum(feet),
  claw: z.enum(claws).optional(),
  site: z.enum(sites).optional(),
  line: z.enum(wallLines).optional(),
  'again-of': shortName.optional(),
  amended,
});
export type Lesion = z.infer<typeof lesion>;

/** A growth mark: a filed notch, or a groove left by a dated event. */
export const mark = z.strictObject({
  foot: z.enum(feet),
  claw: z.enum(claws),
  line: z.enum(wallLines),
  'groove-from': calendarDay.optional(),
  amended,
});
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
