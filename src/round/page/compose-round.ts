import { type PlacedCase } from '../../book/animal-page-data.js';
import type { Cell, CellItem, DataTable, TableSection } from '../../book/page-parts.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { noticeLimit } from '../../reference/notices.js';
import { stopInWords } from '../../words/compose-due.js';
import { calvingInWords } from '../../words/compose-withheld.js';
import { dayInWords, planDay, paragraph } from '../../words/number-in-words.js';
import { type Words, told, wordsOf } from '../../reference/words.js';
import {
  type Lift,
  type RoundFarm,
  type Round,
  type RoundDays,
  overdueLifts,
  openBesides,
} from '../round-of.js';
import {
  besidesLines,
  jobLine,
  onHerLines,
  whoLine,
  type FarmBlock,
  type RoundPage,
  type RoundTrip,
  whenInRound,
} from './round-page.js';
import type { Business } from '../../record/business.js';
import { bringTogether, type ToBring } from '../to-bring.js';

/** One farm: who to ring, who is to be lifted and why, and what else stands open. Every animal stands in one row. */
function farmBlock(words: Words, farm: RoundFarm, all: readonly RoundFarm[], today: CalendarDay): FarmBlock {
  const { record } = farm.work;
  const { slug } = record;
  const { lifts, others } = farm;
  const stop = stopInWords(words, farm.work.cases);
  return {
    id: `farm-${slug}`,
    name: told(record.farm.farm),
    contact: contactLines(words, farm),
    lead: [
      ...health(words, farm),
      ...(stop ? [`${stop.title}. ${stop.text}`] : calledOnAfter(words, farm, all)),
      ...passed(words, farm, today),
      ...neighbours(words, farm, all, today),
      ...(lifts.length > 0
        ? []
        : [words.say(stop ? 'round.stop-none-lifted' : `round.lift-none${farm.visit ? '' : '-unplanned'}`)]),
    ],
    tables: [
      ...(lifts.length > 0 ? [liftTable(words, farm, today)] : []),
      ...(others.length > 0 ? [othersTable(words, farm, today)] : []),
    ],
    leaving: {
      label: words.say('round.leaving.label'),
      ticks: ['boots', 'crush', 'knives', 'hands'].map((what) => words.say(`round.leaving.${what}`)),
    },
  };
}

/** Where work has stopped, who was there, and which farms the same people were on in the days before. */
function stopLines(words: Words, all: readonly RoundFarm[]): string[] {
  const days = noticeLimit('several-animals-ill', 'visited');
  return all.flatMap((farm) => {
    const stop = farm.stop;
    const said = stopInWords(words, farm.work.cases);
    if (!stop || !said) return [];
    const farms = all.filter(
      (other) => other !== farm && wasThere(other, stop.people, addDays(stop.since, -days), stop.since),
    );
    const before = {
      days,
      farms: words.commas(farms.map(({ work }) => told(work.record.farm.farm))),
    };
    return [
      `${told(farm.work.record.farm.farm)}: ${said.title}. ${said.text}`,
      ...(farms.length > 0 ? [words.say('stop.visited', before)] : []),
    ];
  });
}

/** A farm called on since by somebody who was where work has stopped. */
function calledOnAfter(words: Words, farm: RoundFarm, all: readonly RoundFarm[]): string[] {
  return all.flatMap((other) => {
    const stop = other.stop;
    if (!stop || other === farm || !wasThere(farm, stop.people, stop.since, '9')) return [];
    const said = { farm: told(other.work.record.farm.farm), people: words.commas(stop.people.map(told)) };
    return [words.say('stop.later', { ...said, day: dayInWords(words, stop.since) })];
  });
}

/** Anybody of them lifted a foot there from the one day to before the other. */
function wasThere({ work }: RoundFarm, people: readonly string[], from: CalendarDay, to: string): boolean {
  return work.cases.some(({ record }) =>
    record.animal.visits.some(
      (visit) => isLiftingVisit(visit) && visit.date >= from && visit.date < to && people.includes(visit.by),
    ),
  );
}

function contactLines(words: Words, { work }: RoundFarm): string[] {
  const { contact, address, vet } = work.record.farm;
  const who = words.semicolons([contact?.name, contact?.phone, contact?.email].map(told));
  const practice = words.semicolons([vet?.practice, vet?.name, vet?.phone].map(told));
  return [
    who === '' ? words.say('round.contact-none') : words.say('round.contact', { who }),
    ...(address === undefined ? [] : [told(address)]),
    practice === '' ? words.say('jobs.vet.no-practice') : words.say('jobs.vet.practice', { who: practice }),
  ];
}

/** What is carried from such a farm to the next; it is gone to last. */
function health(words: Words, { work }: RoundFarm): string[] {
  const { health: written = [] } = work.record.farm;
  return written.length === 0 ? [] : [words.say('round.health', { health: words.commas(written.map(told)) })];
}

/** A planned visit whose day is over says nothing of the next. */
function passed(words: Words, { visit, work }: RoundFarm, today: CalendarDay): string[] {
  const written = work.record.farm['next-visit'];
  if (visit !== undefined || written === undefined || written >= today) return [];
  return [words.say('round.visit-passed', { day: dayInWords(words, written) })];
}

/** Farms of the same place, with another day or none: perhaps one trip. One sentence, since fifteen farms may have four each. */
function neighbours(words: Words, farm: RoundFarm, all: readonly RoundFarm[], today: CalendarDay): string[] {
  const place = placeName(farm);
  const farms = all
    .filter((other) => other !== farm && place !== '' && placeName(other) === place)
    .filter(({ visit }) => visit === undefined || visit !== farm.visit)
    .map(({ visit, work }) =>
      words.say(`round.near-farm${visit === undefined ? '-unplanned' : ''}`, {
        farm: told(work.record.farm.farm),
        ...(visit === undefined ? {} : { day: planDay(words, visit, today) }),
      }),
    );
  return farms.length === 0 ? [] : [words.say('round.near', { farms: words.semicolons(farms) })];
}

/** What stands last in an address; a postcode or a county there only means that fewer neighbours are found. */
function placeName({ work }: RoundFarm): string {
  return (work.record.farm.address ?? '').split(/[,\n]/).at(-1)!.trim().toLowerCase();
}

function liftTable(words: Words, farm: RoundFarm, today: CalendarDay): DataTable {
  const row = ({ one, items }: Lift): Cell[] => [
    whoCell(words, one),
    linesCell(items.map((item) => jobLine(words, one, item, farm.visit, today))),
    linesCell(besidesLines(words, one, farm.until, today)),
    handlingCell(words, one, today),
  ];
  return {
    id: `lift-${farm.work.record.slug}`,
    caption: words.say('round.lift-caption', { count: farm.lifts.length }),
    columns: ['animal', 'jobs', 'besides', 'handling'].map((key) => ({ head: words.say(`round.${key}`) })),
    rows: farm.lifts.map((lift) => ({ cells: row(lift) })),
  };
}

function othersTable(words: Words, farm: RoundFarm, today: CalendarDay): DataTable {
  return {
    id: `others-${farm.work.record.slug}`,
    caption: words.say('round.others-caption', { count: farm.others.length }),
    columns: ['animal', 'besides'].map((key) => ({ head: words.say(`round.${key}`) })),
    rows: farm.others.map((one) => ({
      cells: [whoCell(words, one), linesCell(besidesLines(words, one, farm.until, today))],
    })),
  };
}

function whoCell(words: Words, one: PlacedCase): Cell {
  const { number, standing } = whoLine(words, one);
  return { text: number, note: standing };
}

function linesCell(lines: readonly CellItem[]): Cell {
  return lines.length === 0 ? { text: '–', nothing: true } : { text: '', items: lines };
}

/** How she is to handle, as it was written, whether she is close to calving, and what is on her. */
function handlingCell(words: Words, one: PlacedCase, today: CalendarDay): Cell {
  const { calvingNear, record } = one;
  const { handling } = record.animal;
  const [first = '–', ...lines] = [
    ...(calvingNear ? [calvingInWords(words, calvingNear)] : []),
    ...(handling ? [told(handling)] : []),
    ...onHerLines(words, one, today),
  ];
  return {
    text: first,
    ...(first === '–' ? { nothing: true } : {}),
    ...(calvingNear || handling ? { strong: true } : {}),
    ...(lines.length > 0 ? { lines } : {}),
  };
}

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
