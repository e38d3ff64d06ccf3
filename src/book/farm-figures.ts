import { farmFigures, type FarmFigures } from '../herd/farm-figures.js';
import type { LesionRate } from '../herd/lesion-rates.js';
import type { TimeToEvent } from '../herd/time-to-event.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import { fixedDays } from '../reference/intervals.js';
import {
  earlyLiftingSentences,
  rateInWords,
  ratesSentence,
  recurrenceSentences,
  timesSentence,
  whenLines,
} from '../words/compose-herd.js';
import { lesionInWords, placeInWords } from '../words/lesion-in-words.js';
import { mm } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { Cell, TableSection } from './book-page.js';
import { footbathSums } from './footbath-sums.js';
import { lameDaysSection } from './lame-days.js';

/**
 * The figures of a farm as sections of its page: how long cases took, what came back, rates, days lame, footbath sums, and
 * what trials say for lifting early. Every figure has its numbers beside it; no other farm is named.
 *
 * Checked: tests/book/farm-figures.test.ts
 */
export function composeFarmFigures(
  words: Words,
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
): TableSection[] {
  const figures = farmFigures(practice, farm, today);
  return [
    timesSection(words, figures),
    recurrenceSection(words, figures),
    ...(figures.rates ? [ratesSection(words, figures.rates)] : []),
    lameDaysSection(words, figures),
    { id: 'early-lifting', heading: words.say('herd.early.heading'), lead: earlyLiftingSentences(words) },
    ...(figures.footbath.baths.length > 0 ? [footbathSums(words, figures.footbath, today)] : []),
  ];
}

function timesSection(words: Words, { farm, business }: FarmFigures): TableSection {
  const lead = [
    words.say('herd.times.lead'),
    words.say('herd.times.assumes', { few: herdNumbers.figures.fewCases.value }),
  ];
  const row = (head: Cell, what: 'healed' | 'walked', here: TimeToEvent, all?: TimeToEvent) => ({
    cells: [
      head,
      { text: here.count === 0 ? '–' : timesSentence(words, here, what) },
      linesCell(whenLines(words, here)),
      ...(business
        ? [
            all && all.count > 0
              ? linesCell([timesSentence(words, all, what), ...whenLines(words, all)])
              : { text: '–' },
          ]
        : []),
    ],
  });
  const healed = farm.healed.map((kind) =>
    row(
      {
        text: lesionInWords(words, kind.code),
        ...(kind.lasting > 0
          ? { note: words.say('herd.times.healed.lasting', { count: kind.lasting }) }
          : {}),
      },
      'healed',
      kind,
      business?.healed.find(({ code }) => code === kind.code),
    ),
  );
  const sound = {
    text: words.say('herd.times.sound'),
    note: words.say('herd.times.sound-note', { days: fixedDays('off-block-counts') }),
  };
  return {
    id: 'case-times',
    heading: words.say('herd.times.heading'),
    lead,
    table: {
      id: 'case-times-table',
      caption: words.say('herd.times.caption'),
      columns: ['kind', 'here', 'when', ...(business ? ['everywhere'] : [])].map((name) => ({
        head: words.say(`herd.times.${name}`),
      })),
      rows: [...healed, row(sound, 'walked', farm.sound, business?.sound)],
    },
  };
}

function linesCell([first = '–', ...lines]: readonly string[]): Cell {
  return { text: first, ...(lines.length > 0 ? { lines } : {}) };
}

function recurrenceSection(words: Words, { farm, business }: FarmFigures): TableSection {
  return {
    id: 'came-back',
    heading: words.say('herd.recurrence.heading'),
    lead: [
      ...recurrenceSentences(words, farm),
      ...(business
        ? recurrenceSentences(words, business).map((sentence) => words.say('herd.business', { sentence }))
        : []),
    ],
  };
}

function ratesSection(words: Words, rates: NonNullable<FarmFigures['rates']>): TableSection {
  const row = (what: string, rate: LesionRate) => ({
    cells: [
      { text: what },
      { text: rate.counted === rate.lesions ? `${rate.lesions}` : `${rate.counted} / ${rate.lesions}` },
      { text: rate.per100 ? `${mm(rate.cowYears)}` : '–' },
      { text: rate.per100 ? rateInWords(words, rate.per100) : '–' },
    ],
  });
  return {
    id: 'lesion-rates',
    heading: words.say('herd.rates.heading'),
    lead: [ratesSentence(words, rates), words.say('herd.rates.limits')],
    table: {
      id: 'lesion-rates-table',
      caption: words.say('herd.rates.caption'),
      columns: [
        { head: words.say('herd.rates.what') },
        { head: words.say('herd.rates.lesions'), number: true },
        { head: words.say('herd.rates.cow-years'), number: true },
        { head: words.say('herd.rates.rate'), number: true },
      ],
      rows: [
        row(words.say('herd.rates.all'), rates.all),
        ...rates.byKind.map((rate) => row(lesionInWords(words, rate.code), rate)),
        ...rates.byClaw.map((rate) => row(clawInWords(words, rate), rate)),
        ...rates.byQuarter.map((rate) => row(quarterInWords(words, rate), rate)),
      ],
    },
  };
}

type Rates = NonNullable<FarmFigures['rates']>;

function clawInWords(words: Words, { foot, claw }: Rates['byClaw'][number]): string {
  const place = placeInWords(words, foot, claw);
  return claw ? place : words.say('herd.rates.no-claw', { foot: place });
}

function quarterInWords(words: Words, { quarter, season }: Rates['byQuarter'][number]): string {
  const months = words.say(`herd.rates.months.${quarter}`);
  if (!season) return months;
  return words.say('herd.rates.season', { season: words.say(`herd.rates.seasons.${season}`), months });
}
