import { footbathSums } from '../herd/footbath/bath-sums.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { FootbathPage } from './book-page.js';
import type { TableSection } from './page-parts.js';
import { footbathSumsSection } from './footbath-sums.js';

/** The footbaths of a farm as recorded, and what they take and leave on the land; undefined where none is recorded. */
export function composeFootbathPage(words: Words, farm: Farm, today: CalendarDay): FootbathPage | undefined {
  if (!farm.footbath?.length) return undefined;
  const sums = footbathSums(farm, today);
  return {
    id: 'footbath',
    heading: words.say('book.farm.footbath'),
    lead: words.say('book.farm.footbath-caution'),
    sections: [
      recorded(words, farm.footbath),
      ...(sums.baths.length > 0 ? [footbathSumsSection(words, sums, today)] : []),
    ],
  };
}

function recorded(words: Words, baths: NonNullable<Farm['footbath']>): TableSection {
  return {
    id: 'footbath-recorded',
    heading: words.say('book.farm.footbath-recorded'),
    lead: [],
    table: {
      id: 'footbath-table',
      caption: words.say('book.farm.footbath-caption'),
      columns: [
        { head: words.say('book.farm.product') },
        { head: words.say('book.farm.from') },
        { head: words.say('book.farm.to') },
        { head: words.say('book.farm.form') },
        { head: words.say('book.farm.strength'), number: true },
        { head: words.say('book.farm.litres-a-fill'), number: true },
        { head: words.say('book.farm.cows-per-fill'), number: true },
        { head: words.say('book.farm.times-a-week'), number: true },
      ],
      rows: baths.map((bath) => ({
        cells: [
          { text: bath.product },
          { text: bath.from ? dayInWords(words, bath.from) : '–' },
          { text: bath.to ? dayInWords(words, bath.to) : '–' },
          { text: bath.form ? words.say(`vocabulary.copper-form.${bath.form}`) : '–' },
          { text: bath.strength === undefined ? '–' : `${bath.strength} %` },
          { text: number(bath.litres) },
          { text: number(bath['cows-per-fill']) },
          { text: number(bath['times-a-week']) },
        ],
      })),
    },
  };
}

function number(value: number | undefined): string {
  return value?.toString() ?? '–';
}
