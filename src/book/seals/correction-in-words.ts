import type { ContentDifference } from '../../ledger/ledger-entry.js';
import type { Correction } from '../../ledger/corrections-of.js';
import { calendarDay } from '../../record/calendar-day.js';
import { dayInWords } from '../../words/number-in-words.js';
import type { Words } from '../../words/words.js';
import { phrase } from '../animal-page-data.js';

/** When, by whom and why, then what each value was before and is now, where that was sealed. */
export function correctionInWords(words: Words, { amendment, changes }: Correction): string {
  const { date, by, why } = amendment;
  return phrase(dayInWords(words, date), by, why, ...changes.map((one) => changeInWords(words, one)));
}

/** One value before and now. @example changeInWords(words, { path: ['found', 'a', 'top'], before: 17, now: 19 }) // → 'a top: 17 before, 19 now' */
export function changeInWords(words: Words, change: ContentDifference): string {
  return words.say('seal.changed', {
    where: placeInWords(change),
    before: valueInWords(words, change.before),
    now: valueInWords(words, change.now),
  });
}

/** The keys of the file that lead there. @example placeInWords({ path: ['found', 'a', 'top'] }) // → 'a top' */
export function placeInWords({ path }: Pick<ContentDifference, 'path'>): string {
  const [first, ...rest] = path;
  const named = first === 'found' && rest.length > 0 ? rest : path;
  return named.map((part) => (typeof part === 'number' ? part + 1 : part)).join(' ');
}

/** A value of a record as it was written, days with their month in letters. */
export function valueInWords(words: Words, value: unknown): string {
  if (value === undefined || value === null) return words.say('seal.nothing');
  if (Array.isArray(value)) return value.map((one) => valueInWords(words, one)).join(', ');
  if (typeof value === 'object')
    return Object.entries(value)
      .map(([key, inner]) => `${key} ${valueInWords(words, inner)}`)
      .join(', ');
  const written = typeof value === 'string' ? value : JSON.stringify(value);
  return calendarDay.safeParse(written).success ? dayInWords(words, written) : written;
}
