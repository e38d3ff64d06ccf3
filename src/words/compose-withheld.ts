import type { CalendarDay } from '../record/calendar-day.js';
import {
  type NotKnown,
  type Side,
  whyNotKnown,
  type Withheld,
  type WrittenPeriod,
} from '../schedule/withheld.js';
import { dayInWords, paragraph, planDay, placeInWords } from './day-and-place.js';
import { told, untold, type Words } from '../reference/words.js';
import type { CalvingNear } from '../schedule/calving.js';
import type { BlockQuestion } from '../healing/block-timeline.js';
import type { Animal } from '../record/animal.js';
import type { MissingEntry } from '../schedule/missing-on-farm.js';
import { valuesInWords } from './compose-standing.js';

/** What is withheld of her milk or her meat, as it is in a cell, with why it is not known beside it. */
interface WithheldInWords {
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
  return {
    text: heldUntil(words, held, today),
    isHeld: held.outcome !== 'nothing',
    ...(held.outcome === 'not-known' ? { note: reasonInWords(words, held.why, side) } : {}),
  };
}

/** The same without the reason. */
export function heldUntil(words: Words, held: Withheld, today: CalendarDay): string {
  if (held.outcome !== 'withheld')
    return words.say(`jobs.withheld.${held.outcome === 'nothing' ? 'not-held' : 'not-known'}`);
  return words.say('jobs.withheld.through', {
    last: planDay(words, held.lastWithheld, today),
    clear: planDay(words, held.firstClear, today),
  });
}

/** The first reason, and how many more there are. */
function reasonInWords(
  words: Words,
  [first, ...more]: readonly [NotKnown, ...NotKnown[]],
  side: Side,
): string {
  const { key, values } = whyNotKnown(first, side);
  return paragraph(
    words.say(key, {
      ...values,
      ...(first.product ? { product: told(first.product) } : {}),
      day: dayInWords(words, first.day),
    }),
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

/** That she is close to calving, in a few words. @example calvingInShort(wordsOf('en-GB'), { due: '2026-12-01', heifer: true }) // → 'heifer, due to calve 1 December 2026' */
export function calvingInShort(words: Words, { due, heifer }: CalvingNear): string {
  if (due === undefined) return words.say('calving.heifer');
  return words.say(`calving.${heifer ? 'heifer-due' : 'due'}`, { day: dayInWords(words, due) });
}

/** The same with how she may be lifted. */
export function calvingInWords(words: Words, near: CalvingNear): string {
  return paragraph(
    words.say('calving.line', { near: calvingInShort(words, near) }),
    words.say('calving.lift'),
  );
}

/**
 * What the record of the blocks leaves in doubt, as a question to who lifts her next.
 *
 * Checked: tests/words/situations.test.ts
 */
export function blockQuestionInWords(words: Words, { what, date, foot, claw }: BlockQuestion): string {
  return words.say(`blocks.${what}`, {
    foot: placeInWords(words, foot),
    place: placeInWords(words, foot, claw),
    day: dayInWords(words, date),
  });
}

/** A missing entry in words: what is missing, and how to close it. */
export interface MissingInWords {
  readonly message: string;
  readonly close: string;
}

/**
 * What the record does not hold, and how to close it.
 *
 * Checked: tests/words/situations.test.ts
 */
export function missingInWords(
  words: Words,
  animal: Animal | undefined,
  entry: MissingEntry,
): MissingInWords {
  const { message, close } = missingOnPage(words, animal, entry);
  return { message: untold(message), close: untold(close) };
}

/** The same with what a record says marked as such. */
export function missingOnPage(words: Words, animal: Animal | undefined, entry: MissingEntry): MissingInWords {
  const name = entry.id.slice('gap/'.length);
  const variant = entry.values['which'] ?? (entry.values['what'] === 'width' ? 'width' : undefined);
  const key = (part: string) => {
    const own = `missing.${name}.${part}-${variant}`;
    return variant !== undefined && words.has(own) ? own : `missing.${name}.${part}`;
  };
  const values = {
    ...valuesInWords(words, animal ?? nobody, entry.values),
    ...(typeof entry.values['days'] === 'number' ? { count: entry.values['days'] } : {}),
    ...Object.fromEntries(
      ['task', 'result', 'view'].flatMap((list) => {
        const word = entry.values[list] ?? '';
        return word === '' ? [] : [[list, words.say(`vocabulary.${list}.${word}`)]];
      }),
    ),
  };
  return { message: words.say(key('message'), values), close: words.say(key('close'), values) };
}

const nobody: Animal = { casefile: 1, animal: '-', lesions: {}, visits: [] };
