import type { FarmSection } from '../book/page-parts.js';
import type { CoveredPage } from '../book/layout-css.js';
import { placeCases } from '../book/compose-book.js';
import { tableByColumns } from '../round/page/table-by-columns.js';
import { type Pooled, withoutCopies } from '../herd/pooled-on.js';
import { digestOf } from '../herd/farm-digest.js';
import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import type { Practice, FarmRecord } from '../record/practice.js';
import type { FarmWork } from '../round/round-of.js';
import { dayInWords, mm } from '../words/day-and-place.js';
import { type Words, told, wordsOf } from '../reference/words.js';
import {
  type OfBusiness,
  openCases,
  animalOnFarm,
  type OnFarm,
  openByFarm,
  openByStanding,
  ranUpOrHeld,
} from './open-cases.js';
import { caseTimes } from '../book/case-times.js';
import { type CaseFigures, caseFigures, withTimes } from '../herd/farm-figures.js';
import { recurrenceSentences } from '../words/compose-herd.js';
import { learnedSentence, trackRecordSentence } from '../words/compose-pooled.js';
import { nameOf } from '../words/compose-standing.js';
import type { LesionGrowth } from '../growth/animal-growth.js';
import { monthOf } from '../record/period.js';
import { outSentence, toolsInWords } from '../words/compose-regrowth.js';
import { pageStyle } from '../book/book-style.js';
import { renderPage } from '../book/render-page.js';

interface OverviewPage extends CoveredPage {
  readonly rest: readonly string[];
  readonly sections: readonly FarmSection[];
}

/**
 * The business on one page, for the trimmer's own eyes: every farm is named in it.
 *
 * Shape:   the practice whole, the farms to describe worked out for `today` → page data; the same for the same input
 * Checked: tests/overview/
 */
export function composeOverview(
  all: Practice,
  work: readonly FarmWork[],
  pooled: Pooled,
  today: CalendarDay,
  refused: readonly string[] = [],
): OverviewPage {
  const practice = { ...all, farms: all.farms.toSorted(bySlug) };
  const { business } = practice;
  const words = wordsOf(business.language ?? 'en-GB');
  const farms = work
    .map((farm) => ({ ...farm, placed: placeCases(farm.cases) }))
    .sort((a, b) => bySlug(a.record, b.record));
  const whole: OfBusiness = { practice, farms, pooled, today, refused };
  const open = openCases(whole);
  const day = dayInWords(words, today);
  const sections: (FarmSection | undefined)[] = [
    openByFarm(words, whole),
    openByStanding(words, whole),
    ranUpOrHeld(words, whole),
    dueOutThisMonth(words, whole),
    learnedSection(words, whole),
    trackRecordSection(words, whole),
    ...timesSections(words, whole),
    {
      id: 'limits',
      heading: words.say('overview.limits.heading'),
      lead: ['few', 'cases', 'no-verdict'].map((key) => words.say(`overview.limits.${key}`)),
    },
  ];
  return {
    language: words.language,
    paper: farms.length > 0 && farms.every(({ record }) => record.farm.paper === 'Letter') ? 'Letter' : 'A4',
    title: words.say('overview.title', { day }),
    running: words.say('overview.title', { day }),
    pageWord: words.say('book.page'),
    skip: words.say('overview.skip'),
    kicker: words.say('round.kicker'),
    heading: words.say('overview.heading'),
    by: words.semicolons([business.business, business.trimmer].map(told)),
    facts: [
      { label: words.say('round.as-on'), value: day },
      { label: words.say('overview.farms'), value: String(farms.length) },
      {
        label: words.say('overview.open.heading'),
        value: words.say('overview.of', {
          part: open.length,
          whole: farms.reduce((sum, { cases }) => sum + cases.length, 0),
        }),
      },
    ],
    rest: refused.map((farm) => words.say('overview.refused', { farm })),
    sections: sections.filter((section) => section !== undefined),
  };
}

function bySlug(a: { readonly slug: string }, b: { readonly slug: string }): number {
  return a.slug < b.slug ? -1 : 1;
}

/** How long cases took and what came back, all farms together; an animal that moved counts once. */
function timesSections(words: Words, { farms, today }: OfBusiness): FarmSection[] {
  const records = farms.map(({ record }) => record);
  const figures = withFarms(
    caseFigures(withoutCopies(records.map((record) => digestOf(record, today)))),
    records,
  );
  return [
    caseTimes(words, figures, {
      here: words.say('overview.times.here'),
      lead: words.say('overview.times.lead'),
    }),
    {
      id: 'came-back',
      heading: words.say('herd.recurrence.heading'),
      lead: recurrenceSentences(words, figures),
    },
  ];
}

/** Where cases are listed one by one, each with its farm: numbers are a farm's own. */
function withFarms(figures: CaseFigures, farms: readonly FarmRecord[]): CaseFigures {
  const names = new Map(farms.map(({ slug, farm }) => [slug, farm.farm]));
  return withTimes(figures, (times) => ({
    ...times,
    cases: times.cases.map((one) => ({
      ...one,
      animal: `${one.animal}, ${told(names.get(one.farm) ?? one.farm)}`,
    })),
  }));
}

function learnedSection(words: Words, { pooled }: OfBusiness): FarmSection {
  return {
    id: 'learned',
    heading: words.say('overview.learned.heading'),
    lead: [learnedSentence(words, pooled.priors.learned), words.say('overview.learned.quarter')],
  };
}

/** How good the dates have been: the scores, and each gap they are based on. */
function trackRecordSection(words: Words, business: OfBusiness): FarmSection {
  const { record } = business.pooled;
  const scored = record.gaps.filter(({ scores }) => scores.length > 0);
  const sum = (values: readonly number[]) => values.reduce((before, value) => before + value, 0);
  return {
    id: 'track-record',
    heading: words.say('overview.track.heading'),
    lead: [
      trackRecordSentence(words, business.pooled),
      ...(record.forecasts + record.withoutForecast + record.leftOut === 0
        ? []
        : [
            words.say('overview.track.counts', {
              forecasts: record.forecasts,
              gaps: scored.length,
              without: record.withoutForecast,
              left: record.leftOut,
            }),
          ]),
    ],
    ...(scored.length > 0
      ? {
          table: tableByColumns(words, scored, {
            id: 'track-table',
            caption: words.say('overview.track.caption'),
            area: 'overview.track',
            numbers: ['dates', 'in-range', 'off'],
            cells: {
              gap: ({ farm, slug, lesion, restarted }) => ({
                text: gapName(words, business, farm, slug, lesion),
                ...(restarted ? { note: words.say('overview.track.restarted') } : {}),
              }),
              healed: ({ after, by }) =>
                words.say('overview.track.between', {
                  after: dayInWords(words, after),
                  by: dayInWords(words, by),
                }),
              dates: ({ scores }) => String(scores.length),
              'in-range': ({ scores }) => words.number(mm(sum(scores.map((s) => s.inRange)))),
              off: ({ scores }) => String(Math.round(sum(scores.map((s) => s.errorDays)) / scores.length)),
            },
          }),
        }
      : {}),
  };
}

/** Of a farm that is not asked for, or was refused meanwhile, the file's name. */
function gapName(words: Words, { practice }: OfBusiness, farm: string, slug: string, lesion: string): string {
  const record = practice.farms.find((one) => one.slug === farm);
  const animal = record?.cases.find((one) => one.slug === slug)?.animal;
  if (!record || !animal) return `${farm}/${slug}`;
  return words.say('overview.track.gap-of', {
    animal: animal.animal,
    farm: told(record.farm.farm),
    gap: nameOf(words, animal, lesion),
  });
}

type Range = Extract<LesionGrowth['forecast'], { outcome: 'range' }>;

interface DatedGap extends OnFarm {
  readonly gap: LesionGrowth;
  readonly out: Range['out'];
}

/**
 * Wall gaps that may be out by the end of the month: those whose range has begun by then, the most likely day first.
 * Each with its range and what it is based on; those without a date are counted.
 */
function dueOutThisMonth(words: Words, business: OfBusiness): FarmSection {
  const { today } = business;
  const gaps = openCases(business).flatMap((on) => openGaps(on));
  const dated = gaps.flatMap((one): DatedGap[] => {
    const { forecast } = one.gap;
    return forecast.outcome === 'range' ? [{ ...one, out: forecast.out }] : [];
  });
  const end = monthOf(today).to;
  const due = dated
    .filter(({ out }) => out.early !== null && out.early <= end)
    .sort((a, b) => order(a) - order(b));
  const undated = gaps.length - dated.length;
  const likely = due.filter(({ gap, out }) => out.best !== null && out.best <= end && !isIf(gap));
  return {
    id: 'due-out',
    heading: words.say('overview.out.heading'),
    lead: [
      words.say(`overview.out.lead${dated.length === 0 ? '-undated' : due.length === 0 ? '-none' : ''}`, {
        ...(dated.length === 0 ? {} : { day: dayInWords(words, end), dated: dated.length }),
        ...(due.length === 0 ? {} : { due: due.length, likely: likely.length }),
      }),
      ...(undated === 0 ? [] : [words.say('overview.out.undated', { count: undated })]),
      words.say('caution.estimate'),
    ],
    ...(due.length > 0
      ? {
          table: tableByColumns(words, due, {
            id: 'due-out-table',
            caption: words.say('overview.out.caption', { count: due.length }),
            area: 'overview.out',
            cells: {
              animal: animalOnFarm,
              gap: ({ one, gap }) => nameOf(words, one.record.animal, gap.lesion, gap.code),
              when: ({ gap }) => outSentence(words, gap, today),
              basis: ({ gap }) => basisCell(words, gap),
            },
          }),
        }
      : {}),
  };
}

function order({ out }: DatedGap): number {
  return out.best === null ? Number.MAX_SAFE_INTEGER : dayNumber(out.best);
}

function openGaps(on: OnFarm): (OnFarm & { gap: LesionGrowth })[] {
  const { growth, standing } = on.one;
  return growth.lesions
    .filter(({ lesion, readings }) => {
      const stands = standing.lesions.find((one) => one.lesion === lesion)?.standing;
      return readings.length > 0 && stands !== 'healed' && stands !== 'joined' && stands !== 'lasting';
    })
    .map((gap) => ({ ...on, gap }));
}

function isIf({ forecast }: LesionGrowth): boolean {
  return forecast.outcome === 'range' && forecast.ifSoundHornFollows;
}

function basisCell(words: Words, { readings, wall }: LesionGrowth) {
  const used = readings.filter(({ unused, topMm }) => !unused && topMm !== undefined);
  return {
    text: words.say('overview.out.readings', { count: used.length, tools: toolsInWords(words, used) }),
    note: words.say(`overview.out.wall-${wall.source}`),
  };
}

/** The overview's page data as one self-contained HTML file: no script, no request. */
export function renderOverview(page: OverviewPage): string {
  return renderPage('overview.njk', page, pageStyle(page, 'overview.css'));
}
