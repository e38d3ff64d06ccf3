import { phrase } from '../../book/fact.js';
import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { dayInWords } from '../../words/day-in-words.js';
import { planDay } from '../../words/plan-day.js';
import { type Words, wordsOf } from '../../words/words.js';
import { type Round, type RoundDays, type RoundFarm, overdueLifts } from '../round-of.js';
import { bringTogether } from '../to-bring.js';
import { apartTable } from './apart-table.js';
import { bringSentence } from './bring-sentence.js';
import { farmBlock, stopLines } from './farm-block.js';
import type { RoundPage, RoundTrip } from './round-page.js';
import { farmsOf, shortTable } from './short-table.js';

/** What a page of the round is made with, besides the round itself. */
export interface RoundAsked {
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
    by: phrase(business.business, business.trimmer),
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
              farms: phrase(...round.outside.map(({ work }) => work.record.farm.farm)),
            }),
          ]
        : []),
      ...round.quiet.map(({ record }) => words.say('round.quiet', { farm: record.farm.farm })),
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
