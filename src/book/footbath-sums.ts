import { copperChart, type CopperBar } from '../figure/chart/copper-chart.js';
import { drawingId } from '../figure/drawing.js';
import type { BathSum, CopperIn, FootbathSums } from '../herd/footbath/bath-sums.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { footbathNumbers } from '../reference/footbath-numbers.js';
import {
  bathInWords,
  copperLines,
  footbathSentences,
  kgInWords,
  landLines,
  missingSentence,
  yearsInWords,
  yearsLines,
} from '../words/compose-footbath.js';
import { dayInWords } from '../words/day-in-words.js';
import { mm } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { FarmSection } from './book-page.js';
import type { Cell, DataTable } from './page-parts.js';
import { chartInBook } from './chart-in-book.js';

/** What the footbaths take in a year and the copper that goes on the land, drawn where it is known, with what it rests on. */
export function footbathSumsSection(words: Words, sums: FootbathSums, today: CalendarDay): FarmSection {
  const section = {
    id: 'footbath-sums',
    heading: words.say('herd.bath.heading'),
    lead: footbathSentences(words, sums, today),
  };
  const table = sumsTable(words, sums, today);
  const bars = copperBars(words, sums, today);
  if (bars.length === 0) return { ...section, table };
  const chart = copperChart(drawingId('', 'copper'), bars, words);
  return { ...section, figures: [chartInBook(words, 'copper-on-land', chart, table)] };
}

function sumsTable(words: Words, sums: FootbathSums, today: CalendarDay): DataTable {
  const { lastYear } = sums;
  return {
    id: 'footbath-sums-table',
    caption: words.say('herd.bath.caption'),
    columns: [
      { head: words.say('herd.bath.product') },
      ...['fill', 'fills', 'year', 'copper', 'land'].map((name) => ({
        head: words.say(`herd.bath.${name}`),
        number: true,
      })),
      { head: words.say('herd.bath.risen', { rise: footbathNumbers.soilRise.value }), number: true },
    ],
    rows: [
      ...sums.baths.map((sum) => ({ cells: cellsOf(words, sum) })),
      ...(lastYear
        ? [
            {
              cells: [
                { text: lastYearInWords(words, today) },
                { text: '–' },
                { text: '–' },
                { text: kgInWords(words, lastYear.kgProduct) },
                ...copperCells(words, lastYear.copper),
              ],
            },
          ]
        : []),
    ],
  };
}

/** Each bath if it goes on so, and what all of them gave in the last 12 months; both answers where a form is not written. */
function copperBars(words: Words, { baths, lastYear }: FootbathSums, today: CalendarDay): CopperBar[] {
  const bars = (name: string, copper: readonly CopperIn[]) =>
    copper.flatMap(({ land, takenAs }): CopperBar[] =>
      land
        ? [
            {
              name,
              kgPerHectare: land.kgPerHectare,
              years: yearsInWords(words, land),
              ...(takenAs ? { takenAs } : {}),
            },
          ]
        : [],
    );
  return [
    ...baths.flatMap(({ bath, copper }) => bars(bathInWords(words, bath), copper)),
    ...(lastYear ? bars(lastYearInWords(words, today), lastYear.copper) : []),
  ];
}

function lastYearInWords(words: Words, today: CalendarDay): string {
  return words.say('herd.bath.last-year', { day: dayInWords(words, today) });
}

/** Copper, on the land, years: a line each for every form it may be. */
function copperCells(words: Words, copper: readonly CopperIn[]): Cell[] {
  return [copperLines, landLines, yearsLines].map((say) => lines(say(words, copper)));
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
    ...copperCells(words, copper),
  ];
}

function lines([first = '–', ...rest]: readonly string[]): Cell {
  return { text: first, ...(rest.length > 0 ? { lines: rest } : {}) };
}
