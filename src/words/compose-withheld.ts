import type { CalendarDay } from '../record/calendar-day.js';
import { type NotKnown, type Side, whyNotKnown, type Withheld, type WrittenPeriod } from '../schedule/withheld.js'; // prettier-ignore
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import { planDay } from './plan-day.js';
import type { Words } from './words.js';

/** What is withheld of her milk or her meat, as it stands in a cell, with why it is not known beside it. */
export interface WithheldInWords {
  readonly text: string;
  readonly note?: string;
  readonly isHeld: boolean;
}

/**
 * The last withheld and the first clear day, both or neither; or that nobody knows, and why.
 *
 * Checked: tests/words/withheld-sentences.test.ts
 */
export function withheldInWords(
  words: Words,
  held: Withheld,
  side: Side,
  today: CalendarDay,
): WithheldInWords {
  switch (held.outcome) {
    case 'nothing':
      return { text: words.say('jobs.withheld.not-held'), isHeld: false };
    case 'withheld':
      return {
        text: words.say('jobs.withheld.through', {
          last: planDay(words, held.lastWithheld, today),
          clear: planDay(words, held.firstClear, today),
        }),
        isHeld: true,
      };
    case 'not-known':
      return {
        text: words.say('jobs.withheld.not-known'),
        note: reasonInWords(words, held.why, side),
        isHeld: true,
      };
  }
}

/** The first reason, and how many more there are. */
function reasonInWords(
  words: Words,
  [first, ...more]: readonly [NotKnown, ...NotKnown[]],
  side: Side,
): string {
  const { key, values } = whyNotKnown(first, side);
  return paragraph(
    words.say(key, { ...values, day: dayInWords(words, first.day) }),
    more.length > 0 ? words.say('due.more-not-known', { count: more.length }) : undefined,
  );
}

/** A period as it was written of one product. */
export function periodInWords(words: Words, period: WrittenPeriod): string {
  switch (period.outcome) {
    case 'days':
      if (period.hours !== undefined) return words.say('audit.held.hours', { count: period.hours });
      if (period.milkings !== undefined) return words.say('audit.held.milkings', { count: period.milkings });
      return words.say('audit.held.days', { count: period.days });
    case 'milkings-a-day-not-known':
      return words.say('audit.held.uncounted', { count: period.milkings });
    default:
      return words.say(`audit.held.${period.outcome}`);
  }
}
