import type { CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../words/words.js';
import { dayInShort } from '../words/day-in-words.js';
import type { Cell, TableSection } from './page-parts.js';
import type { PlacedCase } from './placed-case.js';
import type { Change } from './change.js';
import { gaitChange } from './gait-change.js';
import { lesionChanges } from './lesion-changes.js';

/** Is it better? Then, now, change, what was expected, and how it reads, with each day beside its number. */
export function composeChanges(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const changes = [...lesionChanges(words, one, today), ...gaitChange(words, one)];
  if (changes.length === 0) return undefined;
  const cell = ({ date, said }: Change['before']): Cell => ({ text: said, note: dayInShort(words, date) });
  return {
    id: `${one.id}-changes`,
    heading: words.say('book.changes.heading'),
    lead: [],
    table: {
      id: `${one.id}-changes-table`,
      caption: words.say('book.changes.caption', { animal: one.record.animal.animal }),
      columns: [
        { head: words.say('book.changes.what') },
        { head: words.say('book.changes.then'), number: true },
        { head: words.say('book.changes.now'), number: true },
        { head: words.say('book.changes.change'), number: true },
        { head: words.say('book.changes.expected'), number: true },
        { head: words.say('book.changes.reads-as') },
      ],
      rows: changes.map((each) => ({
        cells: [
          { text: each.what },
          cell(each.before),
          cell(each.last),
          { text: each.change ?? '–' },
          { text: each.expected ?? '–' },
          { text: each.readsAs ?? '–' },
        ],
      })),
    },
  };
}
