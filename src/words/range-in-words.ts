import type { OutRange } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { dayInWords } from './day-in-words.js';
import type { Words } from './words.js';

/** A range of days, and the reading it was worked out from. */
export interface RangeFrom {
  readonly from: CalendarDay;
  readonly out: OutRange<CalendarDay>;
}

/**
 * A range in a sentence, of a gap in the wall (`standing.out`) or of an ulcer (`closing.out`).
 *
 * A day that has passed is never promised: a range that lies behind reads as what the readings said.
 *
 * Checked: tests/words/situations.test.ts
 */
export function rangeInWords(
  words: Words,
  area: 'standing.out' | 'closing.out',
  { from, out }: RangeFrom,
  today: CalendarDay,
): string {
  return words.say(`${area}.${variantOf(out, today)}`, daysInWords(words, { from, ...out }));
}

function variantOf({ early, best, late }: OutRange<CalendarDay>, today: CalendarDay): string {
  if (early === null) return 'none-in-five';
  if (best === null) return 'best-open';
  if (late === null) return 'late-open';
  if (late < today) return 'past';
  if (early > today) return 'range';
  return best > today ? 'begun' : 'begun-best-past';
}

/** The same where it hangs on something not known yet, such as whether sound horn follows: without a most likely day. */
export function rangeIfInWords(
  words: Words,
  key: 'standing.out.if-sound' | 'standing.out.if-ran-up' | 'closing.out.if-opening-up',
  { from, out }: RangeFrom,
  today: CalendarDay,
): string {
  const { early, late } = out;
  const area = key.slice(0, key.lastIndexOf('.'));
  const days = daysInWords(words, { from, ...out });
  if (early === null) return words.say(`${area}.none-in-five`, days);
  if (late === null) return words.say(`${key}-open`, days);
  return words.say(`${key}${late < today ? '-past' : early <= today ? '-begun' : ''}`, days);
}

/** Those days that there are, worded, by their names. */
export function daysInWords(
  words: Words,
  days: Readonly<Record<string, CalendarDay | null>>,
): Record<string, string> {
  return Object.fromEntries(
    Object.entries(days).flatMap(([key, day]) => (day === null ? [] : [[key, dayInWords(words, day)]])),
  );
}
