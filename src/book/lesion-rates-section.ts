import { seasonChart } from '../figure/chart/season-chart.js';
import { seasonInWords } from '../figure/chart/season-words.js';
import { drawingId } from '../figure/drawing.js';
import type { FarmFigures } from '../herd/farm-figures.js';
import type { LesionRate } from '../herd/lesion-rates.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import { rateInWords, ratesSentence } from '../words/compose-herd.js';
import { lesionInWords, placeInWords } from '../words/lesion-in-words.js';
import { mm } from '../words/number-in-words.js';
import { levelPercent } from '../words/percent.js';
import type { Words } from '../words/words.js';
import type { FarmSection } from './book-page.js';
import type { Cell, DataTable } from './page-parts.js';
import { chartInBook } from './chart-in-book.js';

const { widestBounds, rateCowYears } = herdNumbers.figures;

type Rates = NonNullable<FarmFigures['rates']>;

/** Lesions first seen: by season as a chart with its numbers folded beneath, by kind and by claw as a table. */
export function lesionRatesSection(words: Words, rates: Rates): FarmSection {
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
      const [name, ...more] = row(words, seasonInWords(words, rate).join(', '), rate).cells;
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
      { text: rate.cowYears > 0 ? `${mm(rate.cowYears)}` : '–' },
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
