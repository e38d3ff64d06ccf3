import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmSeals } from '../ledger/seals-of-farm.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { shortSource } from '../reference/numbers.js';
import { dayInWords } from '../words/day-and-place.js';
import { type Words, told, wordsOf } from '../reference/words.js';
import type { BookPage } from './book-page.js';
import type { TextList } from './page-parts.js';
import { composeBook, type BookOptions } from './compose-book.js';
import { blockEarlyBox, callVetBox } from './farm-watch.js';
import { composeSealing, withHead } from './seals/corrections-table.js';
import { numbersInUse } from './numbers-table.js';

/**
 * One animal's page as a file of its own, as page data: out of the same book, with what is needed to read it.
 *
 * Shape:   a farm with the one case; the practice whole, or `options.pooled`, since all cows teach what to expect
 * Error:   RangeError for a farm with no case or several
 * Checked: tests/cli/case.test.ts
 */
export function composeCase(
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
  options: BookOptions = {},
): BookPage {
  const page = composeBook(practice, farm, today, { ...options, alone: true });
  const [cow, ...others] = page.cows;
  if (!cow || others.length > 0)
    throw new RangeError(`one case, not ${farm.cases.length}, makes a page alone`);
  const words = wordsOf(page.language);
  const values = { animal: cow.number, farm: told(farm.farm.farm), day: dayInWords(words, today) };
  return {
    ...page,
    title: words.say('alone.title', values),
    running: withHead(words, words.say('alone.running', values), options.seals),
    alone: {
      skip: words.say('alone.skip'),
      kicker: words.say('alone.place', values),
      farm: page.one.farm,
      by: page.one.by,
      cow,
      boxes: [callVetBox(words, farm.farm), blockEarlyBox(words, practice)],
      about: aboutPage(words, options.seals),
    },
  };
}

/** The method, its limits, what always holds and where the numbers come from, in short. */
function aboutPage(words: Words, seals: FarmSeals | undefined): TextList {
  return {
    heading: words.say('alone.about'),
    items: [
      [words.say('book.last.method.1'), words.say('book.last.method.3')].join(' '),
      [words.say('book.last.limits.1'), words.say('book.last.limits.3')].join(' '),
      ['live-tissue', 'vet-only', 'local-law'].map((key) => words.say(`caution.${key}`)).join(' '),
      ...composeSealing(words, seals).items.slice(0, 1),
      words.say('alone.sources', { authors: words.semicolons(authorsOfNumbers()) }),
    ],
  };
}

/** Who published the numbers that growth and closing start from. */
function authorsOfNumbers(): string[] {
  const growth = numbersInUse().filter(({ key }) => key.startsWith('numbers.growth.'));
  return [...new Set(growth.flatMap(({ number }) => number.address.source))].map(shortSource);
}
