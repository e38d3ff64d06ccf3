import type { CalendarDay } from '../../record/calendar-day.js';
import type { GaitScale } from '../../record/words.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Words } from '../../words/words.js';

/** A gait score with its scale, never without; with its day where one is given. @example scoreInWords(wordsOf('en-GB'), 2, 'uk-0-3') // → '2 (mobility score, UK 0–3)' */
export function scoreInWords(
  words: Words,
  score: number,
  scale: GaitScale | undefined,
  day?: CalendarDay,
): string {
  const named = words.say('book.log.on-scale', {
    value: score,
    scale: scale ? words.say(`vocabulary.gait-scale.${scale}`) : words.say('book.log.no-scale'),
  });
  return day === undefined ? named : words.say('audit.on-day', { what: named, day: dayInWords(words, day) });
}
