import { footbathSums, type BathSum, type CopperIn, type FootbathSums } from '../herd/footbath/bath-sums.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { dayInWords, mm } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import {
  type Cell,
  type DataTable,
  dataTable,
  type FarmSection,
  heads,
  linesCell,
  numberHeads,
} from './page-parts.js';
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

/** The footbaths of a farm as recorded, and what they take and leave on the land; undefined where none is recorded. */
export function composeFootbathPage(words: Words, farm: Farm, today: CalendarDay) {
  if (!farm.footbath?.length) return undefined;
  const sums = footbathSums(farm, today);
  const sections: FarmSection[] = [
    {
      id: 'footbath-recorded',
      heading: words.say('book.farm.footbath-recorded'),
      lead: [],
      table: recorded(words, farm.footbath),
    },
    ...(sums.baths.length > 0 ? [footbathSumsSection(words, sums, today)] : []),
  ];
  return {
    id: 'footbath',
    heading: words.say('book.farm.footbath'),
    lead: words.say('book.farm.footbath-caution'),
    sections,
  };
}

function recorded(words: Words, baths: NonNullable<Farm['footbath']>): DataTable {
  const area = 'book.farm';
  const number = (value: number | undefined) => (value === undefined ? '–' : words.number(value));
  return dataTable(
    'footbath-table',
    words.say('book.farm.footbath-caption'),
    [
      ...heads(words, area, 'product', 'from', 'to', 'form'),
      ...numberHeads(words, area, ['strength', 'litres-a-fill', 'cows-per-fill', 'times-a-week']),
    ],
    baths.map(({ product, from, to, form, strength, litres, ...bath }) => [
      told(product),
      from ? dayInWords(words, from) : '–',
      to ? dayInWords(words, to) : '–',
      form ? words.say(`vocabulary.copper-form.${form}`) : '–',
      strength === undefined ? '–' : words.say('herd.bath.percent', { strength }),
      number(litres),
      number(bath['cows-per-fill']),
      number(bath['times-a-week']),
    ]),
  );
}

/** What the footbaths take in a year and the copper that goes on the land, drawn where it is known, with what it is based on. */
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
  return dataTable(
    'footbath-sums-table',
    words.say('herd.bath.caption'),
    [
      ...heads(words, 'herd.bath', 'product'),
      ...numberHeads(words, 'herd.bath', ['fill', 'fills', 'year', 'copper', 'land', 'risen'], {
        rise: footbathNumbers.soilRise.value,
      }),
    ],
    [
      ...sums.baths.map((sum) => cellsOf(words, sum)),
      ...(lastYear
        ? [
            [
              lastYearInWords(words, today),
              '–',
              '–',
              kgInWords(words, lastYear.kgProduct),
              ...copperCells(words, lastYear.copper),
            ],
          ]
        : []),
    ],
  );
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
  return [copperLines, landLines, yearsLines].map((say) => linesCell(say(words, copper)));
}

function cellsOf(words: Words, sum: BathSum): (string | Cell)[] {
  const { bath, cows, weeksAYear, kgPerFill, fillsAYear, kgAYear, copper } = sum;
  const weeks = mm(weeksAYear);
  const basis =
    cows === undefined
      ? words.say('herd.bath.weeks-only', { weeks })
      : words.say('herd.bath.weeks', { weeks, cows });
  const note = missingSentence(words, sum);
  const kg = (amount: number | undefined) => (amount === undefined ? '–' : kgInWords(words, amount));
  return [
    { text: bathInWords(words, bath), note: note ? `${basis}. ${note}` : basis },
    kg(kgPerFill),
    fillsAYear === undefined ? '–' : `${Math.round(fillsAYear)}`,
    kg(kgAYear),
    ...copperCells(words, copper),
  ];
}
