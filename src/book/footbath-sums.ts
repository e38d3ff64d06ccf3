import type { BathSum, FootbathSums } from '../herd/footbath/bath-sums.js';
import type { CalendarDay } from '../record/calendar-day.js';
import {
  bathInWords,
  copperLines,
  footbathSentences,
  kgInWords,
  landLines,
  missingSentence,
} from '../words/compose-footbath.js';
import { mm } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { Cell, TableSection } from './book-page.js';

/** What the footbaths take in a year and the copper that goes on the land, with what it rests on. */
export function footbathSums(words: Words, sums: FootbathSums, today: CalendarDay): TableSection {
  return {
    id: 'footbath-sums',
    heading: words.say('herd.bath.heading'),
    lead: footbathSentences(words, sums, today),
    table: {
      id: 'footbath-sums-table',
      caption: words.say('herd.bath.caption'),
      columns: [
        { head: words.say('herd.bath.product') },
        ...['fill', 'fills', 'year', 'copper', 'land'].map((name) => ({
          head: words.say(`herd.bath.${name}`),
          number: true,
        })),
      ],
      rows: sums.baths.map((sum) => ({ cells: cellsOf(words, sum) })),
    },
  };
}

function cellsOf(words: Words, sum: BathSum): Cell[] {
  const { bath, cows, weeksAYear, kgPerFill, fillsAYear, kgAYear, copper } = sum;
  const weeks = mm(weeksAYear);
  const basis =
    cows === undefined
      ? words.say('herd.bath.weeks-only', { weeks })
      : words.say('herd.bath.weeks', { weeks, cows });
  const note = missingSentence(words, sum);
  return [
    { text: bathInWords(words, bath), note: note ? `${basis}. ${note}` : basis },
    { text: kgPerFill === undefined ? '–' : kgInWords(words, kgPerFill) },
    { text: fillsAYear === undefined ? '–' : `${Math.round(fillsAYear)}` },
    { text: kgAYear === undefined ? '–' : kgInWords(words, kgAYear) },
    lines(copperLines(words, copper)),
    lines(landLines(words, copper)),
  ];
}

function lines([first = '–', ...rest]: readonly string[]): Cell {
  return { text: first, ...(rest.length > 0 ? { lines: rest } : {}) };
}
