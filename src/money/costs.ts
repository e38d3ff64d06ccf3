import type { Animal } from '../record/animal.js';
import { type CalendarDay, calendarDayOf, dayNumber } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { leftFarm } from '../record/visit.js';
import { inMilkOn } from '../schedule/calving.js';
import { heldByUse } from '../schedule/withheld.js';
import { type PieceOfWork, workDone } from './work-done.js';
import type { Business } from '../record/business.js';
import { type Hundredths, hundredthsOf } from './hundredths.js';
import type { FarmRecord, CaseRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { type ToFinish, toFinish } from './to-finish.js';

interface MilkWithheld {
  /** Days on which milk was withheld, each once however many products ask for it, oldest first. */
  readonly days: readonly CalendarDay[];
  /** Days of giving a product whose milk days are not known: a day for each use. */
  readonly notKnown: readonly CalendarDay[];
}

/**
 * The days on which her milk was withheld because of products given, up to a day.
 *
 * From the day after the first dose to the last withheld day as the schedule has it; the day of the first dose is not
 * counted, since part of its milk had gone. Days on which she gave no milk are not counted: dry, not calved yet, or gone.
 *
 * Shape:   her record, the products among her pieces of work → days
 * Unit:    whole calendar days
 * Checked: tests/money/milk-withheld.test.ts (by hand)
 */
export function milkWithheld(
  animal: Animal,
  pieces: readonly PieceOfWork[],
  farm: Farm,
  today: CalendarDay,
): MilkWithheld {
  const withheld = new Set<number>();
  const notKnown: CalendarDay[] = [];
  const given = new Map(pieces.flatMap(({ product, date }) => (product ? [[product, date]] : [])));
  for (const { use, side, to, isKnown } of heldByUse(animal, farm, today)) {
    const date = given.get(use);
    if (date === undefined || side === 'meat') continue;
    const last = dayNumber(to < today ? to : today);
    if (!isKnown) notKnown.push(date);
    else for (let day = dayNumber(date) + 1; day <= last; day += 1) withheld.add(day);
  }
  const days = [...withheld].sort((a, b) => a - b).map(calendarDayOf);
  return { days: days.filter((day) => givesMilk(animal, day)), notKnown: notKnown.sort() };
}

function givesMilk(animal: Animal, day: CalendarDay): boolean {
  const gone = (animal.episodes ?? []).some(
    ({ ended, result }) => ended !== undefined && ended < day && result !== undefined && leftFarm.has(result),
  );
  const shown = inMilkOn(animal, day);
  return !gone && shown !== 'dry' && shown !== 'not-calved';
}

/**
 * Whether somebody is of the business: named as its trimmer or among its people. Where it names nobody, everybody is,
 * since nothing distinguishes them.
 *
 * @example isOurs({ trimmer: 'Marra Quillfen' }, 'P. Wexmarrow') // → false
 */
export function isOurs({ trimmer, people = [] }: Business, name: string): boolean {
  const plain = (one: string) => one.trim().replaceAll(/\s+/g, ' ').toLowerCase();
  const ours = [...(trimmer === undefined ? [] : [trimmer]), ...people.map((one) => one.name)].map(plain);
  return ours.length === 0 || ours.includes(plain(name));
}

export type CostKind = PieceOfWork['what'] | 'milk';

/** One kind of cost: how many pieces, or days of milk, at what price. */
interface CostLine {
  readonly what: CostKind;
  readonly count: number;
  /** Of one; absent for products, which each have a cost of their own. */
  readonly price?: number;
  /** Of milk: litres a cow a day. */
  readonly litres?: number;
  readonly sum: Hundredths;
}

/** What is on record and not in the sum, and why. */
export interface NotInSum {
  readonly what: CostKind;
  readonly count: number;
  /** `others`: done by somebody who is not of the business. */
  readonly why: 'no-price' | 'no-cost' | 'no-litres' | 'not-recorded' | 'others';
}

export interface Costs {
  readonly currency: string;
  /** Only kinds that there was something of, and whose price is known. */
  readonly lines: readonly CostLine[];
  readonly total: Hundredths;
  readonly notInSum: readonly NotInSum[];
}

/** Where the prices are. */
type Prices = Readonly<{ business: Business; farm: Pick<Farm, 'milk-litres'> }>;

/**
 * What some work and some withheld milk come to; undefined where the business gives no prices.
 *
 * Each line is rounded to hundredths, half up, and the total adds the lines as printed. What has no price is not guessed:
 * it is under `notInSum`.
 *
 * Checked: tests/money/costs.test.ts (by hand)
 */
export function costsOf(
  { business, farm }: Prices,
  pieces: readonly PieceOfWork[],
  milk: { readonly days: number; readonly notKnown: number },
): Costs | undefined {
  const { prices } = business;
  if (!prices) return undefined;
  const lines: CostLine[] = [];
  const notInSum: NotInSum[] = [];
  const leftOut = (what: CostKind, count: number, why: NotInSum['why']) => {
    if (count > 0) notInSum.push({ what, count, why });
  };
  for (const what of ['visit', 'block', 'wrap'] as const) {
    const all = pieces.filter((piece) => piece.what === what);
    const count = all.filter(({ by }) => isOurs(business, by)).length;
    const price = prices[what];
    if (price === undefined) leftOut(what, count, 'no-price');
    else if (count > 0) lines.push({ what, count, price, sum: hundredthsOf(count, price) });
    leftOut(what, all.length - count, 'others');
  }
  const products = pieces.flatMap(({ product }) => product ?? []);
  const costs = products.flatMap(({ cost }) => (cost === undefined ? [] : hundredthsOf(cost)));
  if (costs.length > 0) lines.push({ what: 'product', count: costs.length, sum: added(costs) });
  leftOut('product', products.length - costs.length, 'no-cost');
  const { 'milk-litres': litres } = farm;
  const price = prices['milk-litre'];
  if (price === undefined) leftOut('milk', milk.days, 'no-price');
  else if (litres === undefined) leftOut('milk', milk.days, 'no-litres');
  else if (milk.days > 0) {
    const sum = hundredthsOf(milk.days, litres, price);
    lines.push({ what: 'milk', count: milk.days, price, litres, sum });
  }
  leftOut('milk', milk.notKnown, 'not-recorded');
  return { currency: prices.currency, lines, total: added(lines.map(({ sum }) => sum)), notInSum };
}

function added(sums: readonly Hundredths[]): Hundredths {
  return sums.reduce((sum, one) => sum + one, 0n);
}

/** What the lameness episode she is in has come to, and what it may still take. */
export interface CaseCosts {
  readonly costs: Costs;
  /** Absent once the case is closed. */
  readonly toFinish?: ToFinish;
}

/**
 * The costs of a case to a day: its lameness episode that is open, else the last.
 *
 * Shape:   a case worked out for the day → costs; undefined where the business gives no prices
 * Checked: tests/money/case-costs.test.ts (by hand)
 */
export function caseCosts(
  business: Business,
  { slug, farm }: Pick<FarmRecord, 'slug' | 'farm'>,
  work: CaseWork,
  today: CalendarDay,
): CaseCosts | undefined {
  const { record, standing } = work;
  const { episode, closed } = standing;
  const pieces = workDone(record.animal, slug, today).filter(({ visit }) => episode.visits.includes(visit));
  const milk = milkWithheld(record.animal, pieces, farm, today);
  const costs = costsWithin({ business, farm }, [{ record, pieces, milk }], () => true);
  return costs && { costs, ...(closed ? {} : { toFinish: toFinish(business, work, pieces, today) }) };
}

/** All work done on one animal, and the milk withheld of her. */
type HerWork = Readonly<{ record: CaseRecord; pieces: readonly PieceOfWork[]; milk: MilkWithheld }>;

/** The work done on each animal of a farm up to a day, in the order of their files. */
export function farmWork({ slug, farm, cases }: FarmRecord, today: CalendarDay): HerWork[] {
  return cases.map((record) => {
    const pieces = workDone(record.animal, slug, today);
    return { record, pieces, milk: milkWithheld(record.animal, pieces, farm, today) };
  });
}

/**
 * What the work of some animals on some days comes to: work by its own day, milk by the day it was withheld.
 *
 * Shape:   her work, or that of all; whether a day is meant → costs; undefined where the business gives no prices
 * Checked: tests/money/case-costs.test.ts, tests/cli/costs.test.ts
 */
export function costsWithin(
  prices: Prices,
  some: readonly HerWork[],
  isMeant: (day: CalendarDay) => boolean,
): Costs | undefined {
  const count = (of: (milk: MilkWithheld) => readonly CalendarDay[]) =>
    some.reduce((sum, { milk }) => sum + of(milk).filter(isMeant).length, 0);
  const pieces = some.flatMap((hers) => hers.pieces.filter(({ date }) => isMeant(date)));
  return costsOf(prices, pieces, {
    days: count(({ days }) => days),
    notKnown: count((milk) => milk.notKnown),
  });
}
