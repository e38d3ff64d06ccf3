import type { CalendarDay } from '../record/calendar-day.js';
import { closingBasis, closingSentence } from '../words/compose-closing.js';
import type { Words } from '../words/words.js';
import type { TableSection } from './page-parts.js';
import { nameInBook } from './finding-in-words.js';
import type { PlacedCase } from './placed-case.js';

/** When each ulcer that is open should have closed, with its range and what it rests on, or why no date is given. */
export function composeClosings(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const over = new Set(['healed', 'covered', 'joined']);
  const ulcers = one.closings.filter(
    ({ readings, forecast }) =>
      readings.length > 0 && !(forecast.outcome === 'none' && over.has(forecast.why)),
  );
  if (ulcers.length === 0) return undefined;
  const dated = ulcers.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifOpeningUp);
  return {
    id: `${one.id}-closing`,
    heading: words.say('book.closing.heading'),
    lead: [words.say('book.closing.lead'), ...(dated ? [words.say('book.closing.lead-range')] : [])],
    table: {
      id: `${one.id}-closing-table`,
      caption: words.say('book.closing.caption', { animal: one.record.animal.animal }),
      columns: ['ulcer', 'closed', 'rests-on'].map((key) => ({ head: words.say(`book.closing.${key}`) })),
      rows: ulcers.map((ulcer) => ({
        cells: [
          { text: nameInBook(words, one.record.animal, ulcer.lesion) },
          { text: closingSentence(words, ulcer, today) || '–' },
          { text: closingBasis(words, ulcer) || '–' },
        ],
      })),
    },
  };
}
