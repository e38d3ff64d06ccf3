import type { CalendarDay } from '../../record/calendar-day.js';
import type { GaitScale } from '../../record/words.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Words } from '../../words/words.js';

/** A gait score with its scale in short, never without; with its day where one is given. The scale's full name and lame mark stand once above the table. @example scoreInWords(wordsOf('en-GB'), 2, 'uk-0-3') // → '2 (UK 0–3)' */
export function scoreInWords(
  words: Words,
  score: number,
  scale: GaitScale | undefined,
  day?: CalendarDay,
): string {
  const named = words.say('book.log.on-scale', {
    value: score,
    scale: scale ? words.say(`audit.scale.${scale}`) : words.say('book.log.no-scale'),
  });
  return day === undefined ? named : words.say('audit.on-day', { what: named, day: dayInWords(words, day) });
}
