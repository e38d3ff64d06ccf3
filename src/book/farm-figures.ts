import type { Pooled } from '../herd/pooled-on.js';
import { type CaseFigures, farmFigures, type FarmFigures } from '../herd/farm-figures.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import {
  earlyLiftingSentences,
  recurrenceSentences,
  rateInWords,
  ratesSentence,
} from '../words/compose-herd.js';
import { dayInWords, lesionInWords, placeInWords, mm } from '../words/day-and-place.js';
import { levelPercent } from '../words/percent.js';
import type { Words } from '../reference/words.js';
import type { FarmSection, TableSection, Cell, DataTable } from './page-parts.js';
import { caseTimes, chartInBook } from './case-times.js';
import { lameDaysSection } from './lame-days.js';
import type { CostKind, Costs } from '../money/costs.js';
import { sumAsText } from '../money/hundredths.js';
import { totalAsText, yearCosts } from '../money/year-costs.js';
import { workKinds } from '../money/work-done.js';
import { notInSumItems } from '../words/compose-money.js';
import { seasonChart, seasonInWords } from '../figure/chart/season-chart.js';
import { drawingId } from '../figure/figure.js';
import type { LesionRate } from '../herd/lesion-rates.js';
import { herdNumbers } from '../reference/numbers.js';

const { widestBounds, rateCowYears } = herdNumbers.figures;

type Rates = NonNullable<FarmFigures['rates']>;

/** Lesions first seen: by season as a chart with its numbers folded beneath, by kind and by claw as a table. */
function lesionRatesSection(words: Words, rates: Rates): FarmSection {
  const table = {
    id: 'lesion-rates-table',
    caption: words.say('herd.rates.caption'),
    columns: [{ head: words.say('herd.rates.what') }, ...numberColumns(words)],
    rows: [
      row(words, words.say('herd.rates.all'), rates.all),
      ...rates.byKind.map((rate) => row(words, lesionInWords(words, rate.code), rate)),
      ...rates.byClaw.map((rate) => row(words, clawInWords(words, rate), rate)),
    ],
  };
  const section = {
    id: 'lesion-rates',
    heading: words.say('herd.rates.heading'),
    lead: [
      ratesSentence(words, rates),
      words.say('herd.rates.limits', { widest: widestBounds.value * rateCowYears.value }),
    ],
    table,
  };
  if (rates.all.lesions === 0) return section;
  const chart = seasonChart(drawingId('', 'season'), rates, words);
  return { ...section, figures: [chartInBook(words, 'lesions-by-season', chart, seasonTable(words, rates))] };
}

function seasonTable(words: Words, rates: Rates): DataTable {
  return {
    id: 'lesions-by-season-table',
    caption: words.say('herd.rates.caption-season'),
    columns: [
      { head: words.say('herd.rates.what') },
      { head: words.say('herd.rates.by-kind') },
      ...numberColumns(words),
    ],
    rows: rates.byQuarter.map((rate) => {
      const [name, ...more] = row(words, words.commas(seasonInWords(words, rate)), rate).cells;
      return { cells: [name!, kindsCell(words, rate), ...more] };
    }),
  };
}

function kindsCell(words: Words, { kinds }: Rates['byQuarter'][number]): Cell {
  const [first = '–', ...lines] = kinds.map((kind) =>
    words.say('herd.rates.kind-count', { kind: lesionInWords(words, kind.code), value: countOf(kind) }),
  );
  return { text: first, ...(lines.length > 0 ? { lines } : {}) };
}

function numberColumns(words: Words) {
  return ['lesions', 'cow-years', 'rate'].map((name) => ({
    head: words.say(`herd.rates.${name}`, { level: levelPercent }),
    number: true,
  }));
}

function row(words: Words, what: string, rate: LesionRate): { readonly cells: Cell[] } {
  return {
    cells: [
      { text: what },
      { text: countOf(rate) },
      { text: rate.cowYears > 0 ? words.number(mm(rate.cowYears)) : '–' },
      { text: rate.per100 ? rateInWords(words, rate.per100) : '–' },
    ],
  };
}

/** Those in the rate, and where they are not all, of how many. */
function countOf({ counted, lesions }: Pick<LesionRate, 'counted' | 'lesions'>): string {
  return counted === lesions ? `${lesions}` : `${counted} / ${lesions}`;
}

function clawInWords(words: Words, { foot, claw }: Rates['byClaw'][number]): string {
  const place = placeInWords(words, foot, claw);
  return claw ? place : words.say('herd.rates.no-claw', { foot: place });
}

/**
 * The figures of a farm as sections of its page: how long cases took, what came back, rates, days lame, and what
 * trials say for lifting early. Every figure has its numbers beneath it; no other farm is named.
 *
 * Checked: tests/book/farm-figures.test.ts
 */
export function composeFarmFigures(
  words: Words,
  business: Business,
  farm: FarmRecord,
  today: CalendarDay,
  pooled: Pick<Pooled, 'figures' | 'upTo'>,
): FarmSection[] {
  const figures = farmFigures(farm, today);
  return [
    caseTimes(words, figures.farm, {
      here: words.say('herd.times.here'),
      lead: words.say('herd.times.lead'),
      pooled,
    }),
    recurrenceSection(words, figures.farm, pooled),
    ...(figures.rates ? [lesionRatesSection(words, figures.rates)] : []),
    lameDaysSection(words, figures),
    { id: 'early-lifting', heading: words.say('herd.early.heading'), lead: earlyLiftingSentences(words) },
    ...composeMoneyYears(words, business, farm, today),
  ];
}

function recurrenceSection(
  words: Words,
  farm: CaseFigures,
  { figures, upTo }: Pick<Pooled, 'figures' | 'upTo'>,
): TableSection {
  return {
    id: 'came-back',
    heading: words.say('herd.recurrence.heading'),
    lead: [
      ...recurrenceSentences(words, farm),
      ...(figures ? recurrenceSentences(words, figures, upTo) : []),
    ],
  };
}

/** What all cases of a farm cost, a row a year; nothing where the business gives no prices. */
function composeMoneyYears(
  words: Words,
  business: Business,
  farm: FarmRecord,
  today: CalendarDay,
): TableSection[] {
  const years = yearCosts(business, farm, today);
  const { currency } = business.prices ?? {};
  if (years.length === 0 || currency === undefined) return [];
  const kinds = [...workKinds, 'milk' as const].filter((what) =>
    years.some(({ costs }) => costs.lines.some((line) => line.what === what)),
  );
  return [
    {
      id: 'money-years',
      heading: words.say('money.years.heading'),
      lead: [
        words.say('money.years.lead', { currency }),
        ...years.flatMap(({ year, costs }) => {
          const items = notInSumItems(words, costs);
          return items === undefined ? [] : [words.say('money.years.not-in-sum', { year, items })];
        }),
      ],
      table: {
        id: 'money-years-table',
        caption: words.say('money.years.caption'),
        columns: [
          { head: words.say('money.years.year') },
          ...kinds.map((what) => ({ head: words.say(`money.short.${what}`), number: true })),
          { head: words.say('money.table.sum'), number: true },
        ],
        rows: years.map(({ year, costs }) => ({
          cells: [
            { text: yearText(words, year, today) },
            ...kinds.map((what) => kindCell(words, costs, what)),
            { text: words.number(totalAsText(costs)), strong: true },
          ],
        })),
      },
    },
  ];
}

function yearText(words: Words, year: string, today: CalendarDay): string {
  return year === today.slice(0, 4)
    ? words.say('money.years.so-far', { year, day: dayInWords(words, today) })
    : year;
}

function kindCell(words: Words, { lines }: Costs, what: CostKind): Cell {
  const line = lines.find((one) => one.what === what);
  return line
    ? {
        text: words.number(sumAsText(line.sum)),
        note: words.say(`money.count.${what}`, { count: line.count }),
      }
    : { text: '–' };
}
