import type { CellItem, TableSection } from '../../book/page-parts.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { dayInWords, planDay, paragraph } from '../../words/day-and-place.js';
import { type Words, told, wordsOf } from '../../reference/words.js';
import { type RoundFarm, type Round, type RoundDays, overdueLifts, openBesides } from '../round-of.js';
import { jobLine, type RoundPage, type RoundTrip, whenInRound, farmBlock, stopLines } from './round-page.js';
import type { Business } from '../../record/business.js';
import { tableByColumns } from './table-by-columns.js';
import { bringTogether, type ToBring } from '../to-bring.js';
import { pageStyle } from '../../book/book-style.js';
import { renderPage } from '../../book/render-page.js';

/** The farms of a round in the order of the page. */
function farmsOf({ trips, unplanned, outside }: Round): RoundFarm[] {
  return [...trips.flatMap(({ farms }) => farms), ...unplanned, ...outside];
}

/** One line a farm: when, how many to lift, how many of those late, and what else is open. */
function shortTable(words: Words, round: Round, today: CalendarDay): TableSection {
  const farms = farmsOf(round);
  const section = { id: 'short', heading: words.say('round.short') };
  if (farms.length === 0) return { ...section, lead: [words.say('round.empty')] };
  return {
    ...section,
    lead: [],
    table: tableByColumns(words, farms, {
      id: 'short-table',
      caption: words.say('round.short-caption'),
      area: 'round',
      numbers: Object.keys(counts),
      cells: {
        'farm-name': (farm) => ({ text: told(farm.work.record.farm.farm), ...linkTo(round, farm) }),
        visit: ({ visit }) =>
          visit === undefined ? words.say('round.not-planned') : planDay(words, visit, today),
        ...Object.fromEntries(
          Object.entries(counts).map(([key, count]) => [
            key,
            // Of a visit on another day nothing was asked: no zero, which would read as nothing late there.
            (farm: RoundFarm) =>
              ofVisit.has(key) && round.outside.includes(farm) ? '–' : String(count(farm)),
          ]),
        ),
      },
    }),
  };
}

/** A farm whose visit falls outside the days asked for has no part of its own on the page. */
function linkTo({ outside }: Round, farm: RoundFarm): { href?: string } {
  return outside.includes(farm) ? {} : { href: `#farm-${farm.work.record.slug}` };
}

/** The numbers of a farm, by their heads. */
const counts: Readonly<Record<string, (farm: RoundFarm) => number>> = {
  lift: ({ lifts }) => lifts.length,
  late: (farm) => overdueLifts(farm).length,
  'for-vet': (farm) => besidesOn(farm).filter(({ notices }) => notices.length > 0).length,
  withheld: (farm) => besidesOn(farm).filter(({ isWithheld }) => isWithheld).length,
  'not-reported': (farm) => besidesOn(farm).flatMap(({ notReported }) => notReported).length,
};
const ofVisit = new Set(['lift', 'late']);

function besidesOn({ work, until }: RoundFarm) {
  return work.cases.map((one) => openBesides(one, until));
}

interface RoundAsked {
  readonly business: Business;
  readonly days: RoundDays;
  readonly today: CalendarDay;
  /** Farms left out because their files have errors, by their folder. */
  readonly refused: readonly string[];
}

/**
 * The round as page data, in the words of the business.
 *
 * Checked: tests/round/round-page.test.ts
 */
export function composeRound(round: Round, asked: RoundAsked): RoundPage {
  const { business, today, refused } = asked;
  const words = wordsOf(business.language ?? 'en-GB');
  const day = dayInWords(words, today);
  const farms = farmsOf(round);
  const apart = apartTable(words, round, today);
  const tripOf = (id: string, heading: string, those: readonly RoundFarm[]): RoundTrip => {
    const animals = those.reduce((sum, { lifts }) => sum + lifts.length, 0);
    return {
      id,
      heading,
      lead: [
        ...(those.length > 1 ? [words.say('round.trip-lead', { count: those.length, animals })] : []),
        ...(animals > 0 ? [bringSentence(words, bringTogether(those.map(({ bring }) => bring)))] : []),
      ],
      farms: those.map((farm) => farmBlock(words, farm, farms, today)),
    };
  };
  return {
    language: words.language,
    paper:
      farms.length > 0 && farms.every(({ work }) => work.record.farm.paper === 'Letter') ? 'Letter' : 'A4',
    title: words.say('round.title', { day }),
    running: words.say('round.title', { day }),
    pageWord: words.say('book.page'),
    skip: words.say('round.skip'),
    kicker: words.say('round.kicker'),
    heading: words.say('round.heading'),
    by: words.semicolons([business.business, business.trimmer].map(told)),
    facts: factsOf(words, farms, asked),
    stops: stopLines(words, farms),
    short: shortTable(words, round, today),
    ...(apart ? { apart } : {}),
    trips: [
      ...round.trips.map((trip) =>
        tripOf(
          `trip-${trip.day}`,
          words.say('round.trip', { day: planDay(words, trip.day, today) }),
          trip.farms,
        ),
      ),
      ...(round.unplanned.length > 0
        ? [tripOf('unplanned', words.say('round.unplanned'), round.unplanned)]
        : []),
    ],
    rest: [
      ...(round.outside.length > 0
        ? [
            words.say('round.outside', {
              farms: words.semicolons(round.outside.map(({ work }) => told(work.record.farm.farm))),
            }),
          ]
        : []),
      ...round.quiet.map(({ record }) => words.say('round.quiet', { farm: told(record.farm.farm) })),
      ...refused.map((farm) => words.say('round.refused', { farm })),
    ],
    notes: {
      heading: words.say('round.notes'),
      items: [
        ...['late', 'bring', 'place'].map((key) => words.say(`round.note.${key}`)),
        words.say('jobs.withheld.lead'),
        ...['live-tissue', 'vet-only'].map((key) => words.say(`caution.${key}`)),
      ],
    },
  };
}

function factsOf(words: Words, farms: readonly RoundFarm[], { days, today }: RoundAsked) {
  const say = (key: string) => words.say(`round.${key}`);
  const sum = (of: (farm: RoundFarm) => number) => String(farms.reduce((total, farm) => total + of(farm), 0));
  return [
    { label: say('as-on'), value: dayInWords(words, today) },
    ...(['from', 'to'] as const).flatMap((end) => {
      const day = days[end];
      return day === undefined ? [] : [{ label: say(`days-${end}`), value: dayInWords(words, day) }];
    }),
    { label: say('lift'), value: sum(({ lifts }) => lifts.length) },
    { label: say('late'), value: sum((farm) => overdueLifts(farm).length) },
  ];
}

/** What to bring, in a sentence. Such as: To bring: blocks: none; wraps: 2. */
function bringSentence(words: Words, { blocks, wraps }: ToBring): string {
  if (blocks.length === 0 && wraps === 0) return words.say('round.bring-nothing');
  const kinds = blocks.map(({ material, count }) =>
    words.say('round.bring-kind', {
      count,
      material: words.say(
        material === 'not-written' ? 'round.material-not-written' : `vocabulary.material.${material}`,
      ),
    }),
  );
  return words.say('round.bring', {
    blocks: kinds.length === 0 ? words.say('round.bring-none') : words.commas(kinds),
    wraps: wraps === 0 ? words.say('round.bring-none') : wraps,
  });
}

type Job = RoundFarm['apart'][number];

interface Call {
  readonly farm: RoundFarm;
  readonly jobs: readonly [Job, ...Job[]];
}

/** Jobs of the trimmer's that no planned visit is for: by day over all farms, each farm with whom to ring. */
function apartTable(words: Words, round: Round, today: CalendarDay): TableSection | undefined {
  const calls = farmsOf(round)
    .flatMap(callsOf)
    .sort((a, b) => (dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : 0));
  if (calls.length === 0) return undefined;
  return {
    id: 'apart',
    heading: words.say('round.apart'),
    lead: [words.say('round.apart-lead')],
    table: tableByColumns(words, calls, {
      id: 'apart-table',
      caption: words.say('round.apart-caption'),
      area: 'round',
      cells: {
        day: ({ jobs }) => whenInRound(words, jobs[0].item, today),
        'farm-name': ({ farm }) => ({
          text: told(farm.work.record.farm.farm),
          lines: [
            ...phoneOf(farm),
            words.say('round.apart-visit', { day: planDay(words, farm.visit!, today) }),
          ],
        }),
        jobs: ({ farm, jobs }) => ({ text: '', items: jobs.map((job) => lineOf(words, farm, job, today)) }),
      },
    }),
  };
}

function callsOf(farm: RoundFarm): Call[] {
  const days = new Map<CalendarDay, readonly [Job, ...Job[]]>();
  for (const job of farm.apart)
    days.set(job.item.by, [...(days.get(job.item.by) ?? []), job] as [Job, ...Job[]]);
  return [...days.values()].map((jobs) => ({ farm, jobs }));
}

function dayOf({ jobs: [{ item }] }: Call): CalendarDay {
  return item.by;
}

/** How she is to handle is said here where the visit's table does not say it. */
function lineOf(words: Words, farm: RoundFarm, { one, item }: Job, today: CalendarDay): CellItem {
  const { text, note } = jobLine(words, one, item, undefined, today);
  const { animal, handling } = one.record.animal;
  const isLifted = farm.lifts.some((lift) => lift.one === one);
  return {
    lead: animal,
    text,
    note: paragraph(
      note,
      handling && !isLifted ? words.say('round.handling-said', { handling: told(handling) }) : undefined,
    ),
  };
}

function phoneOf({ work }: RoundFarm): string[] {
  const { contact } = work.record.farm;
  const said = contact?.phone ?? contact?.email;
  return said === undefined ? [] : [said];
}

/** The round's page data as one self-contained HTML file: no script, no request. */
export function renderRound(page: RoundPage): string {
  return renderPage('round.njk', page, pageStyle(page, 'round.css'));
}
