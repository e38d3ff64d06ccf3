import { footbathSums, type BathSum, type CopperIn, type FootbathSums } from '../herd/footbath/bath-sums.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { dayInWords, mm } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import type { FarmSection, TableSection, Cell, DataTable } from './page-parts.js';
import { copperChart, type CopperBar } from '../figure/chart/copper-chart.js';
import { drawingId } from '../figure/figure.js';
import { footbathNumbers } from '../reference/numbers.js';
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
import { chartInBook } from './case-times.js';

export interface FootbathPage {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly sections: readonly FarmSection[];
}

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
          { text: told(bath.product) },
          { text: bath.from ? dayInWords(words, bath.from) : '–' },
          { text: bath.to ? dayInWords(words, bath.to) : '–' },
          { text: bath.form ? words.say(`vocabulary.copper-form.${bath.form}`) : '–' },
          {
            text:
              bath.strength === undefined ? '–' : words.say('herd.bath.percent', { strength: bath.strength }),
          },
          { text: number(words, bath.litres) },
          { text: number(words, bath['cows-per-fill']) },
          { text: number(words, bath['times-a-week']) },
        ],
      })),
    },
  };
}

function number(words: Words, value: number | undefined): string {
  return value === undefined ? '–' : words.number(value);
}

/** What the footbaths take in a year and the copper that goes on the land, drawn where it is known, with what it rests on. */
function footbathSumsSection(words: Words, sums: FootbathSums, today: CalendarDay): FarmSection {
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
