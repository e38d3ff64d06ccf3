import type { CellItem, TableSection } from '../../book/page-parts.js';
import { type CalendarDay } from '../../record/calendar-day.js';
import { dayInWords, planDay, paragraph } from '../../words/day-and-place.js';
import { type Words, told, wordsOf } from '../../reference/words.js';
import { type RoundFarm, type Round, type RoundDays, overdueLifts, openBesides } from '../round-of.js';
import { jobLine, type RoundPage, type RoundTrip, whenInRound } from './round-page.js';
import type { Business } from '../../record/business.js';
import { bringTogether, type ToBring } from '../to-bring.js';
import { farmBlock, stopLines } from './farm-block.js';

/** The farms of a round in the order of the page. */
function farmsOf({ trips, unplanned, outside }: Round): RoundFarm[] {
  return [...trips.flatMap(({ farms }) => farms), ...unplanned, ...outside];
}

/** How many of the numbers of a farm are of its visit. */
const ofVisit = 2;

/** One line a farm: when, how many to lift, how many of those late, and what else stands open. */
function shortTable(words: Words, round: Round, today: CalendarDay): TableSection {
  const farms = farmsOf(round);
  const section = { id: 'short', heading: words.say('round.short') };
  if (farms.length === 0) return { ...section, lead: [words.say('round.empty')] };
  return {
    ...section,
    lead: [],
    table: {
      id: 'short-table',
      caption: words.say('round.short-caption'),
      columns: [
        { head: words.say('round.farm-name') },
        { head: words.say('round.visit') },
        ...['lift', 'late', 'for-vet', 'withheld', 'not-reported'].map((key) => ({
          head: words.say(`round.${key}`),
          number: true,
        })),
      ],
      rows: farms.map((farm) => {
        const { visit, work } = farm;
        return {
          cells: [
            { text: told(work.record.farm.farm), ...linkTo(round, farm) },
            { text: visit === undefined ? words.say('round.not-planned') : planDay(words, visit, today) },
            ...counts(farm).map((count, at) =>
              // of a visit on another day nothing was asked: no nought that reads as nothing late there
              at < ofVisit && round.outside.includes(farm) ? { text: '–' } : { text: String(count) },
            ),
          ],
        };
      }),
    },
  };
}

/** A farm whose visit falls outside the days asked for has no part of its own on the page. */
function linkTo({ outside }: Round, farm: RoundFarm): { href?: string } {
  return outside.includes(farm) ? {} : { href: `#farm-${farm.work.record.slug}` };
}

function counts(farm: RoundFarm): readonly number[] {
  const besides = farm.work.cases.map((one) => openBesides(one, farm.until));
  const of = (test: (one: (typeof besides)[number]) => boolean) => besides.filter(test).length;
  return [
    farm.lifts.length,
    overdueLifts(farm).length,
    of(({ notices }) => notices.length > 0),
    of(({ isWithheld }) => isWithheld),
    besides.reduce((sum, { notReported }) => sum + notReported.length, 0),
  ];
}

/** What a page of the round is made with, besides the round itself. */
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
          words,
          `trip-${trip.day}`,
          words.say('round.trip', { day: planDay(words, trip.day, today) }),
          trip.farms,
          farms,
          today,
        ),
      ),
      ...(round.unplanned.length > 0
        ? [tripOf(words, 'unplanned', words.say('round.unplanned'), round.unplanned, farms, today)]
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

function tripOf(
  words: Words,
  id: string,
  heading: string,
  farms: readonly RoundFarm[],
  all: readonly RoundFarm[],
  today: CalendarDay,
): RoundTrip {
  const animals = farms.reduce((sum, { lifts }) => sum + lifts.length, 0);
  return {
    id,
    heading,
    lead: [
      ...(farms.length > 1 ? [words.say('round.trip-lead', { count: farms.length, animals })] : []),
      ...(animals > 0 ? [bringSentence(words, bringTogether(farms.map(({ bring }) => bring)))] : []),
    ],
    farms: farms.map((farm) => farmBlock(words, farm, all, today)),
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

/** One farm's jobs of one day. */
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
    table: {
      id: 'apart-table',
      caption: words.say('round.apart-caption'),
      columns: ['day', 'farm-name', 'jobs'].map((key) => ({ head: words.say(`round.${key}`) })),
      rows: calls.map(({ farm, jobs }) => ({
        cells: [
          { text: whenInRound(words, jobs[0].item, today) },
          {
            text: told(farm.work.record.farm.farm),
            lines: [
              ...phoneOf(farm),
              words.say('round.apart-visit', { day: planDay(words, farm.visit!, today) }),
            ],
          },
          { text: '', items: jobs.map((job) => lineOf(words, farm, job, today)) },
        ],
      })),
    },
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

/** How she is to handle stands here where the visit's table does not say it. */
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
