import type { Animal } from '../record/animal.js';
import { claws, feet } from '../record/words.js';
import { nameOf } from './compose-standing.js';
import { dayInWords, placeInWords, mm } from './day-and-place.js';
import { type Values, type Words, told } from '../reference/words.js';

/** Values that are always days. */
const days = new Set(['day', 'since', 'raised', 'last', 'clear', 'from', 'asked', 'seen']);

/** Values that stand as somebody wrote them. */
const asWritten = new Set(['product', 'reason']);

/**
 * Turns what the schedule worked out into what stands in a sentence: days with the month in letters, and the place
 * it is about (`place`) from lesion, foot and claw.
 */
export function valuesInWords(words: Words, animal: Animal, values: Values): Values {
  const { lesion, foot: footWritten, claw: clawWritten } = values;
  const foot = feet.find((name) => name === footWritten);
  const claw = claws.find((name) => name === clawWritten);
  const place =
    typeof lesion === 'string' && animal.lesions[lesion]
      ? nameOf(words, animal, lesion)
      : foot && placeInWords(words, foot, claw);
  const worded = Object.entries(values).map(([key, value]): [string, string | number] => {
    if (typeof value === 'number') return [key, mm(value)];
    if (days.has(key) && value !== '') return [key, dayInWords(words, value)];
    return [key, asWritten.has(key) ? told(value) : value];
  });
  return { ...Object.fromEntries(worded), ...(place ? { place } : {}) };
}
