import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import type { Words } from '../reference/words.js';
import type { Claw, Foot, LesionCode } from '../record/words.js';

/** A length as it was written, or rounded to a tenth where it was worked out. @example mm(4.04) // → 4 */
export function mm(length: number): number {
  return Math.round(length * 10) / 10;
}

/** A large count with its thousands apart. @example thousands(wordsOf('en-GB'), 90000) // → '90,000' */
export function thousands(words: Words, count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, words.say('number.thousands'));
}

/** A sentence with a capital at its start. @example sentenceCase('growing down') // → 'Growing down' */
export function sentenceCase(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** Sentences of one paragraph; what is absent is left out. */
export function paragraph(...sentences: readonly (string | undefined)[]): string {
  return sentences.filter((sentence) => sentence !== undefined && sentence !== '').join(' ');
}

/**
 * A day with its month in letters, in the order of the language.
 * @example dayInWords(wordsOf('en-GB'), '2026-06-02') // → '2 June 2026'
 * @example dayInWords(wordsOf('en-US'), '2026-06-02') // → 'June 2, 2026'
 */
export function dayInWords(words: Words, day: CalendarDay): string {
  return worded(words, 'day', day, 'month');
}

/** The same with the month cut short and no year, for narrow places. @example dayInShort(wordsOf('en-GB'), '2026-06-02') // → '2 Jun' */
export function dayInShort(words: Words, day: CalendarDay): string {
  return worded(words, 'short-day', day, 'short-month');
}

/** Days once worded, by language: a drawing says the same few again and again, and the format has but so many. */
const known = new WeakMap<Words, Map<string, string>>();

function worded(words: Words, key: string, day: CalendarDay, month: 'month' | 'short-month'): string {
  const days = known.get(words) ?? new Map<string, string>();
  known.set(words, days);
  const way = `${key} ${day}`;
  const text = days.get(way) ?? words.say(`calendar.${key}`, dayParts(words, day, month));
  days.set(way, text);
  return text;
}

/** Day, month and year as the `calendar` strings of `shared/words/LANGUAGE.json` take them. */
function dayParts(words: Words, day: CalendarDay, month: 'month' | 'short-month') {
  return {
    day: Number(day.slice(8, 10)),
    month: words.say(`calendar.${month}.${day.slice(5, 7)}`),
    year: day.slice(0, 4),
  };
}

/** 1 January 1970 was a Thursday. */
const weekdayOf = (day: CalendarDay): number => (dayNumber(day) + 4) % 7;

/**
 * A day as it is planned by: with its day of the week, and the year only where it is not the book's own.
 *
 * Valid:   days from 1970 on
 * @example planDay(wordsOf('en-GB'), '2026-06-23', '2026-06-16') // → 'Tue 23 June'
 * @example planDay(wordsOf('en-US'), '2027-01-05', '2026-06-16') // → 'Tue, January 5, 2027'
 */
export function planDay(words: Words, day: CalendarDay, today: CalendarDay): string {
  const sameYear = day.slice(0, 4) === today.slice(0, 4);
  return words.say(`calendar.plan-day${sameYear ? '' : '-year'}`, {
    ...dayParts(words, day, 'month'),
    weekday: words.say(`calendar.weekday.${weekdayOf(day)}`),
  });
}

/** A foot, or one claw of it. @example placeInWords(wordsOf('en-GB'), 'LH', 'outer') // → 'left hind, outer claw' */
export function placeInWords(words: Words, foot: Foot, claw?: Claw): string {
  const footName = words.say(`vocabulary.foot.${foot}`);
  return claw
    ? words.say('vocabulary.place', { foot: footName, claw: words.say(`vocabulary.claw.${claw}`) })
    : footName;
}

/** Full name first, the code in brackets. @example lesionInWords(wordsOf('en-GB'), 'WL') // → 'white line disease (WL)' */
export function lesionInWords(words: Words, code: LesionCode): string {
  return words.say('vocabulary.lesion', { name: words.say(`vocabulary.lesion-name.${code}`), code });
}
