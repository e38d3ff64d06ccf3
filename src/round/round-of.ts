import type { Business } from '../record/business.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork, StopWork } from '../schedule/case-work.js';
import { type Words, wordsOf } from '../reference/words.js';
import { smallest } from '../statistics/estimate.js';
import { type CalendarDay, addDays } from '../record/calendar-day.js';
import { urgencies } from '../reference/notices.js';
import { type DueItem, type DueWhat, isJob } from '../schedule/due/due-item.js';
import { isOpen, plannedVisit } from '../schedule/next-lift.js';
import { isWithheld } from '../schedule/withheld.js';
import { placeCases } from '../book/compose-book.js';
import type { PlacedCase } from '../book/animal-page-data.js';
import { roundNumbers } from '../reference/numbers.js';
import { type ToBring, toBring } from './to-bring.js';
import { given } from '../record/given.js';
import { workOutFarm } from '../schedule/work-out-case.js';

/** One farm with its cases worked out for a day, and the business that looks after it. Nothing of another farm. */
export interface FarmWork {
  readonly record: FarmRecord;
  readonly business: Business;
  readonly cases: readonly CaseWork[];
}

/** The words a farm is written to in: its own language, else the business's. */
export function wordsOfFarm({ record, business }: Pick<FarmWork, 'record' | 'business'>): Words {
  return wordsOf(record.farm.language ?? business.language ?? 'en-GB');
}

/** A standing notice says itself whether it was asked and answered. */
const saidByNotice: ReadonlySet<DueWhat> = new Set(['vet-ask', 'vet-answer']);

/** What is open of an animal besides lifting her, as far as it is due by a day. */
export function openBesides(
  { due, notices: all, withheld }: Pick<CaseWork, 'due' | 'notices' | 'withheld'>,
  until: CalendarDay,
) {
  const notices = all.filter(({ standing }) => standing);
  const open = due.filter(isOpen);
  const notReported = open.filter(
    ({ who, what, by }) =>
      who !== 'trimmer' &&
      by <= until &&
      isJob({ what }) &&
      what !== 'withdrawal-not-recorded' &&
      !(notices.length > 0 && saidByNotice.has(what)),
  );
  const isHeld = isWithheld(withheld);
  return {
    notices,
    ...(notices.length > 0
      ? { urgency: smallest(notices.map(({ urgency }) => urgencies.indexOf(urgency))) }
      : {}),
    isWithheld: isHeld,
    /** Asked of the farm or of the vet and not reported done, by day. */
    notReported,
    any: notices.length > 0 || isHeld || notReported.length > 0,
  };
}

/** A job of the trimmer's that is on the planned visit: whatever is due by its day. */
export function standsOnVisit({ who, by }: DueItem, visit: CalendarDay): boolean {
  return who === 'trimmer' && by <= visit;
}

/**
 * A job of the trimmer's that has no other day than the planned visit: due on it, or late already. What falls due before
 * the visit is on it as well, and apart with whom to ring, for the vet, the farm or an extra call.
 */
export function waitsForVisit(
  { who, by }: DueItem,
  visit: CalendarDay | undefined,
  today: CalendarDay,
): boolean {
  return who === 'trimmer' && visit !== undefined && (by === visit || by < today);
}

/** The days a round is for, both in; without them each farm's next planned visit, and what is late. */
export interface RoundDays {
  readonly from?: CalendarDay;
  readonly to?: CalendarDay;
}

/** An animal with jobs of the trimmer's. */
export interface Lift {
  readonly one: PlacedCase;
  readonly items: readonly DueItem[];
}

/** One farm of the round. */
export interface RoundFarm {
  readonly work: FarmWork;
  /** Work stands still here: the trimmer's jobs are suspended and are nowhere else. */
  readonly stop?: StopWork;
  /** Of the planned visit, where one is written that has not passed. */
  readonly visit?: CalendarDay;
  /** Farm tasks and the like are reported up to this day. */
  readonly until: CalendarDay;
  /** To be lifted at the visit, worst first; of a farm with no planned visit, to be lifted at all. */
  readonly lifts: readonly Lift[];
  /** Jobs of the trimmer's with a day of their own, by day: before the visit, or after it. */
  readonly apart: readonly { readonly one: PlacedCase; readonly item: DueItem }[];
  /** Not to be lifted, and yet something is open: the vet's, withheld, or not reported done. */
  readonly others: readonly PlacedCase[];
  readonly bring: ToBring;
}

export interface Round {
  /** Farms whose visit is planned for one day make one trip; by day, and in a trip the worst farm first, one with an infection last. */
  readonly trips: readonly { readonly day: CalendarDay; readonly farms: readonly RoundFarm[] }[];
  /** With something to do and no visit planned, worst first. */
  readonly unplanned: readonly RoundFarm[];
  /** Whose visit is planned for another day than those asked for. */
  readonly outside: readonly RoundFarm[];
  /** With nothing to do and no visit planned. */
  readonly quiet: readonly FarmWork[];
}

/**
 * The round: who is to be lifted where and when, what falls in between, what else is open.
 *
 * Shape:   farms worked out for `today` → the same farms by trip; nothing is worked out anew
 * Unit:    calendar days
 * Checked: tests/round/round-of.test.ts
 */
export function roundOf(farms: readonly FarmWork[], days: RoundDays, today: CalendarDay): Round {
  const all = farms.map((work) => roundFarm(work, days, today)).sort(worstFarmFirst);
  const isIn = ({ visit }: RoundFarm) =>
    visit !== undefined && visit >= (days.from ?? '') && (days.to === undefined || visit <= days.to);
  const planned = all.filter(isIn);
  const unplanned = all.filter(({ visit }) => visit === undefined);
  return {
    trips: [...new Set(planned.map(({ visit }) => visit!))]
      .sort()
      .map((day) => ({ day, farms: planned.filter(({ visit }) => visit === day) })),
    unplanned: unplanned.filter((farm) => !isQuiet(farm)),
    outside: all.filter((farm) => farm.visit !== undefined && !isIn(farm)),
    quiet: unplanned.filter(isQuiet).map(({ work }) => work),
  };
}

function roundFarm(work: FarmWork, { from = '', to }: RoundDays, today: CalendarDay): RoundFarm {
  const visit = plannedVisit(work.record.farm, today);
  const isIn = visit !== undefined && visit >= from && (to === undefined || visit <= to);
  const ahead = addDays(from > today ? from : today, roundNumbers.aheadDays.value);
  const until = to ?? visit ?? ahead;
  // what fell due before these days is reported too, unless a visit outside them is there for it
  const staysOpen = isIn || visit === undefined;
  const cases = placeCases(work.cases);
  const jobs = cases.map((one) => ({
    one,
    items: one.due.filter(
      (item) => item.who === 'trimmer' && isOpen(item) && item.by <= until && (item.by >= from || staysOpen),
    ),
  }));
  const isForVisit = (item: DueItem) => visit === undefined || (isIn && standsOnVisit(item, visit));
  const isApart = (item: DueItem) => visit !== undefined && !(isIn && waitsForVisit(item, visit, today));
  const lifts = jobs
    .map(({ one, items }) => ({ one, items: items.filter(isForVisit) }))
    .filter(({ items }) => items.length > 0);
  const lifted = new Set(lifts.map(({ one }) => one));
  const stop = cases.find((one) => one.stop)?.stop;
  return {
    work,
    ...(stop ? { stop } : {}),
    ...given({ visit }),
    until,
    lifts,
    apart: jobs
      .flatMap(({ one, items }) => items.filter(isApart).map((item) => ({ one, item })))
      .sort((a, b) => (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : a.one.place - b.one.place)),
    others: cases.filter((one) => !lifted.has(one) && openBesides(one, until).any),
    bring: toBring(
      lifts.map(({ one }) => one),
      today,
    ),
  };
}

function isQuiet({ stop, lifts, others, apart }: RoundFarm): boolean {
  return stop === undefined && lifts.length + others.length + apart.length === 0;
}

/** A farm with an infection written for it goes last. Else the vet's most urgent, then the most that is overdue, then the most to lift, then the farm's name. */
function worstFarmFirst(a: RoundFarm, b: RoundFarm): number {
  const [one, other] = [badness(a), badness(b)];
  const at = one.findIndex((number, index) => number !== other[index]);
  if (at >= 0) return one[at]! - other[at]!;
  return a.work.record.slug < b.work.record.slug ? -1 : 1;
}

function badness(farm: RoundFarm): readonly number[] {
  const cases = [...farm.lifts.map(({ one }) => one), ...farm.others];
  const urgent = cases.map((one) => openBesides(one, farm.until).urgency ?? Number.MAX_SAFE_INTEGER);
  return [
    (farm.work.record.farm.health ?? []).length === 0 ? 0 : 1,
    smallest(urgent, Number.MAX_SAFE_INTEGER),
    -overdueLifts(farm).length,
    -farm.lifts.length,
  ];
}

/** The animals to be lifted of which a job is overdue. */
export function overdueLifts({ lifts }: Pick<RoundFarm, 'lifts'>): readonly Lift[] {
  return lifts.filter(({ items }) => items.some(({ standing }) => standing === 'overdue'));
}

/** The farms to describe, each worked out for a day by what the cows of all farms have taught. */
export function workOfFarms(
  farms: readonly FarmRecord[],
  known: Parameters<typeof workOutFarm>[1],
): FarmWork[] {
  const { business } = known;
  return farms.map((record) => ({ record, business, cases: workOutFarm(record, known) }));
}
