import type { Pooled } from '../herd/pooled-on.js';
import { farmFigures, type FarmFigures } from '../herd/farm-figures.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import {
  earlyLiftingSentences,
  recurrenceSentences,
  rateInWords,
  ratesSentence,
  spreadInWords,
  workSentences,
} from '../words/compose-herd.js';
import { dayKinds } from '../herd/lame-days.js';
import { spreadOf } from '../herd/printed-figure.js';
import { dayInWords, lesionInWords, placeInWords, mm } from '../words/day-and-place.js';
import { levelPercent } from '../words/percent.js';
import type { Words } from '../reference/words.js';
import {
  type Cell,
  dataTable,
  type FarmSection,
  heads,
  linesCell,
  numberHeads,
  type TableSection,
} from './page-parts.js';
import { caseTimes, chartInBook } from './case-times.js';
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
  const caption = (key: string) => words.say(`herd.rates.${key}`);
  const what = heads(words, 'herd.rates', 'what');
  const numbers = numberHeads(words, 'herd.rates', ['lesions', 'cow-years', 'rate'], { level: levelPercent });
  const section = {
    id: 'lesion-rates',
    heading: words.say('herd.rates.heading'),
    lead: [
      ratesSentence(words, rates),
      words.say('herd.rates.limits', { widest: widestBounds.value * rateCowYears.value }),
    ],
    table: dataTable(
      'lesion-rates-table',
      caption('caption'),
      [...what, ...numbers],
      [
        [caption('all'), ...rateCells(words, rates.all)],
        ...rates.byKind.map((rate) => [lesionInWords(words, rate.code), ...rateCells(words, rate)]),
        ...rates.byClaw.map((rate) => [clawInWords(words, rate), ...rateCells(words, rate)]),
      ],
    ),
  };
  if (rates.all.lesions === 0) return section;
  const bySeason = dataTable(
    'lesions-by-season-table',
    caption('caption-season'),
    [...what, ...heads(words, 'herd.rates', 'by-kind'), ...numbers],
    rates.byQuarter.map((rate) => [
      words.commas(seasonInWords(words, rate)),
      linesCell(
        rate.kinds.map((kind) =>
          words.say('herd.rates.kind-count', { kind: lesionInWords(words, kind.code), value: countOf(kind) }),
        ),
      ),
      ...rateCells(words, rate),
    ]),
  );
  const chart = seasonChart(drawingId('', 'season'), rates, words);
  return { ...section, figures: [chartInBook(words, 'lesions-by-season', chart, bySeason)] };
}

function rateCells(words: Words, rate: LesionRate): string[] {
  return [
    countOf(rate),
    rate.cowYears > 0 ? words.number(mm(rate.cowYears)) : '–',
    rate.per100 ? rateInWords(words, rate.per100) : '–',
  ];
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
    {
      id: 'came-back',
      heading: words.say('herd.recurrence.heading'),
      lead: [
        ...recurrenceSentences(words, figures.farm),
        ...(pooled.figures ? recurrenceSentences(words, pooled.figures, pooled.upTo) : []),
      ],
    },
    ...(figures.rates ? [lesionRatesSection(words, figures.rates)] : []),
    lameDaysSection(words, figures),
    { id: 'early-lifting', heading: words.say('herd.early.heading'), lead: earlyLiftingSentences(words) },
    ...composeMoneyYears(words, business, farm, today),
  ];
}

/** Days lame on the block and off it over all lameness episodes, and the visits and blocks they took. */
function lameDaysSection(words: Words, { farm, lameDays }: FarmFigures): TableSection {
  const section = { id: 'lame-days', heading: words.say('herd.lame.heading') };
  const work = workSentences(words, farm.work);
  if (lameDays.length === 0) return { ...section, lead: [words.say('herd.lame.none'), ...work] };
  const all = lameDays.flatMap(({ days }) => Object.values(days)).reduce((sum, days) => sum + days, 0);
  const animals = new Set(lameDays.map(({ slug }) => slug)).size;
  return {
    ...section,
    lead: [
      words.say('herd.lame.lead', {
        runs: words.say('herd.runs', { count: lameDays.length }),
        carried: words.say('herd.days', { count: herdNumbers.figures.carriedForward.value }),
      }),
      ...work,
    ],
    table: dataTable(
      'lame-days-table',
      words.say('herd.lame.caption'),
      [...heads(words, 'herd.lame', 'what'), ...numberHeads(words, 'herd.lame', ['total', 'each'])],
      dayKinds.map((kind) => {
        const each = lameDays.map(({ days }) => days[kind]);
        const spread = spreadOf(each, animals);
        const value = each.reduce((sum, days) => sum + days, 0);
        return [
          words.say(`herd.lame.kinds.${kind}`),
          words.say('herd.lame.of', { value, all }),
          spread ? spreadInWords(words, spread) : '–',
        ];
      }),
    ),
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
      table: dataTable(
        'money-years-table',
        words.say('money.years.caption'),
        [
          ...heads(words, 'money.years', 'year'),
          ...numberHeads(words, 'money.short', kinds),
          ...numberHeads(words, 'money.table', ['sum']),
        ],
        years.map(({ year, costs }) => [
          yearText(words, year, today),
          ...kinds.map((what) => kindCell(words, costs, what)),
          { text: words.number(totalAsText(costs)), strong: true },
        ]),
      ),
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
  if (!line) return { text: '–' };
  const note = words.say(`money.count.${what}`, { count: line.count });
  return { text: words.number(sumAsText(line.sum)), note };
}
