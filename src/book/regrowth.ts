import type { LesionGrowth } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { basisSentence, outSentence } from '../words/compose-regrowth.js';
import { paragraph } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { TableSection } from './page-parts.js';
import type { PlacedCase } from './placed-case.js';
import { nameInBook } from './finding-in-words.js';

/** When each gap in the wall should be out, with its range and what it rests on, or why no date is given. */
export function composeRegrowth(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const gaps = one.growth.lesions.filter(
    ({ lesion, readings, forecast }) =>
      readings.length > 0 &&
      !(forecast.outcome === 'none' && forecast.why === 'healed') &&
      one.record.animal.lesions[lesion],
  );
  if (gaps.length === 0) return undefined;
  return {
    id: `${one.id}-regrowth`,
    heading: words.say('book.regrowth.heading'),
    lead: [
      words.say('book.regrowth.lead'),
      ...(gaps.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifRanUp?.out)
        ? [words.say('book.regrowth.lead-range')]
        : []),
    ],
    table: {
      id: `${one.id}-regrowth-table`,
      caption: words.say('book.regrowth.caption', { animal: one.record.animal.animal }),
      columns: ['gap', 'out', 'rests-on'].map((key) => ({ head: words.say(`book.regrowth.${key}`) })),
      rows: gaps.map((gap) => ({
        cells: [
          { text: nameInBook(words, one.record.animal, gap.lesion) },
          { text: outSentence(words, gap, today) || '–' },
          { text: paragraph(basisSentence(words, one.growth, gap), rateInWords(words, one, gap)) },
        ],
      })),
    },
  };
}

/** Her own rate beside the usual one: what the readings have taught of her horn so far. */
function rateInWords(words: Words, one: PlacedCase, gap: LesionGrowth): string {
  return words.say('book.regrowth.rate', {
    rate: gap.referenceMmPerMonth.toFixed(1),
    factor: one.growth.factor.mean.toFixed(2),
    spread: Math.sqrt(one.growth.factor.variance).toFixed(2),
  });
}
