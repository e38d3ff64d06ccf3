import { isMedicine, substancesIn, substancesOf } from '../reference/substances.js';
import { fixedDays } from '../reference/intervals.js';
import type { Animal } from '../record/animal.js';
import {
  addDays,
  type CalendarDay,
  compareDays,
  daysBetween,
  lastCalendarDay,
  latestDay,
} from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { leftFarm, type ProductUse, type Visit } from '../record/visit.js';
import type { EpisodeResult } from '../record/words.js';
import { inMilkOn } from './calving.js';
import { given } from '../record/given.js';

/**
 * The one place that says what is withheld of an animal. Whatever speaks of withdrawal asks `withheldOf`, so that no two
 * pages can differ; of a single product only the period as it was written can be had, never a day.
 */
export const sides = ['milk', 'meat'] as const;
export type Side = (typeof sides)[number];

/** Why nobody can know until when something is withheld, and after what: the sentence `due.why.not-known.…`. */
export interface NotKnown {
  readonly why:
    /** A medicine, or perhaps one, without a period. */
    | 'not-recorded'
    /** A period in milkings, and the farm's milkings a day are not written. */
    | 'milkings'
    /** Given while she was dry or had not calved, and the days after calving are not written. */
    | 'not-in-milk'
    /** The record does not show whether she was in milk. */
    | 'lactation'
    /** The days after calving are written, and she has not calved. */
    | 'until-calving'
    /** Pain relief was given and no product is recorded. */
    | 'pain-relief'
    /** The vet gave a medicine and no product is recorded. */
    | 'treated'
    /** An antimicrobial in the footbath. */
    | 'footbath';
  /** The last day it was given. */
  readonly day: CalendarDay;
  readonly product?: string;
  /** Of `until-calving`: the days after calving. */
  readonly days?: number;
}

/** What is withheld of one animal on a day: her milk, or her meat, after all she was given. */
export type Withheld =
  | { readonly outcome: 'nothing' }
  | {
      readonly outcome: 'withheld';
      /** The latest of all she was given; both are printed, never one. */
      readonly lastWithheld: CalendarDay;
      readonly firstClear: CalendarDay;
      /** The product that counts, and the last day it was given. */
      readonly product: string;
      readonly day: CalendarDay;
    }
  /** Treated as withheld: some part is not known, whatever is known of the others. Earliest first. */
  | { readonly outcome: 'not-known'; readonly why: readonly [NotKnown, ...NotKnown[]] };

export type WithheldOfAnimal = Readonly<Record<Side, Withheld>>;

/** Whether anything is withheld of her, or may be. */
export function isWithheld({ milk, meat }: WithheldOfAnimal): boolean {
  return milk.outcome !== 'nothing' || meat.outcome !== 'nothing';
}

/**
 * What is withheld of her on a day, one milk day and one meat day, by what is recorded up to today.
 *
 * Last withheld day = last dose + period, the latest of all that runs on that day or joins on to it; first clear day =
 * the day after. Milk counts so only where the record shows her in milk on every day she was given it; else from calving
 * too, as far as the days after calving are written. Any part that is not known makes it not known, for a year.
 * Nothing is ever suggested: only what was written is counted, and 0 is a value.
 *
 * Shape:   her record, her farm's, the day it is known on, the day asked about (that day, unless said) → milk and meat
 * Unit:    calendar days
 * Source:  shared/intervals.json `withdrawal-unknown-shown`; what makes a medicine: shared/substances.json
 * Checked: tests/schedule/withheld.test.ts, tests/laws/withheld-laws.test.ts
 */
export function withheldOf(
  animal: Animal,
  farm: Farm,
  today: CalendarDay,
  on: CalendarDay = today,
): WithheldOfAnimal {
  const parts = partsOf(animal, farm, today);
  return { milk: stateOn(parts.milk, on), meat: stateOn(parts.meat, on) };
}

/** The words of a reason, for milk, for meat or for both: their key and what fills it. */
export function whyNotKnown(
  { why, day, product, days }: NotKnown,
  which: Side | 'both',
): { readonly key: string; readonly values: Readonly<Record<string, string | number>> } {
  return {
    key: `due.why.${why === 'not-recorded' ? `withdrawal-not-recorded-${which}` : `withdrawal-not-known-${why}`}`,
    values: { day, ...given({ product, count: days }) },
  };
}

/** A run of withheld days, first and last in; without `to`, not known until when, and it still may be. */
export type WithheldSpan = Readonly<{ side: Side; from: CalendarDay; to?: CalendarDay }>;

/** The days something was withheld of her, as runs; what is not known is reported only while it may last. */
export function withheldSpans(animal: Animal, farm: Farm, today: CalendarDay): WithheldSpan[] {
  const parts = partsOf(animal, farm, today);
  return sides.flatMap((side) =>
    runsOf(parts[side]).flatMap((run): WithheldSpan[] => {
      const notKnownTo = latestDay(run.parts.flatMap(({ to, notKnown }) => (notKnown ? to : []))) ?? '';
      if (notKnownTo >= today) return [{ side, from: run.from }];
      return runsOf(run.parts.filter(({ to }) => to > notKnownTo)).map(({ from, to }) => ({
        side,
        from,
        to,
      }));
    }),
  );
}

/** What each use of a product withholds by itself, or may: for sums, never for a page, where all she was given counts. */
export function heldByUse(animal: Animal, farm: Farm, today: CalendarDay) {
  const parts = partsOf(animal, farm, today);
  return sides.flatMap((side) =>
    parts[side].flatMap(({ use, from, to, notKnown }) =>
      use ? [{ use, side, from, to, isKnown: notKnown === undefined }] : [],
    ),
  );
}

/** A withdrawal period as it was written of one use of a product. */
export type WrittenPeriod =
  /** 0 was written: nothing is withheld. */
  | { readonly outcome: 'nothing' }
  | {
      readonly outcome: 'days';
      /** Whole days, each part rounded up; the label's own hours where it gives hours. */
      readonly days: number;
      readonly hours?: number;
      readonly milkings?: number;
    }
  | { readonly outcome: 'not-recorded' }
  | { readonly outcome: 'milkings-a-day-not-known'; readonly milkings: number }
  /** No medicine, and nothing withheld was written. */
  | { readonly outcome: 'none-written' };

/**
 * The period of one use as written. Hours ÷ 24 and milkings ÷ milkings a day are rounded up to whole days; where hours and
 * days are both given, the label's own hours win. What is not said to be no medicine is taken for one.
 *
 * Checked: tests/schedule/withheld.test.ts
 */
export function writtenPeriod(use: ProductUse, side: Side, milkingsADay: number | undefined): WrittenPeriod {
  const missing = { outcome: isMedicine(use) ? 'not-recorded' : 'none-written' } as const;
  if (side === 'meat') return use['meat-days'] === undefined ? missing : wholeDays(use['meat-days']);
  const { 'milk-hours': hours, 'milk-days': days, 'milk-milkings': milkings } = use;
  if (hours !== undefined) return wholeDays(hours / 24, { hours });
  if (days !== undefined) return wholeDays(days);
  if (milkings === undefined) return missing;
  if (milkings > 0 && !milkingsADay) return { outcome: 'milkings-a-day-not-known', milkings };
  return wholeDays(milkings === 0 ? 0 : milkings / milkingsADay!, { milkings });
}

function wholeDays(period: number, written: { hours?: number; milkings?: number } = {}): WrittenPeriod {
  return period === 0 ? { outcome: 'nothing' } : { outcome: 'days', days: Math.ceil(period), ...written };
}

/** An antimicrobial in a footbath, where its name says so. */
export function antimicrobialBaths({ footbath = [] }: Farm): NonNullable<Farm['footbath']> {
  return footbath.filter(({ product }) =>
    substancesIn(product).some(({ group }) => group === 'antimicrobial'),
  );
}

/** Pain relief given, or a treatment by the vet, of which no product is recorded. */
export interface WithoutProduct {
  readonly why: 'pain-relief' | 'treated';
  readonly day: CalendarDay;
  /** Position in `animal.visits`. */
  readonly visit: number;
}

/**
 * What was given without a record: pain relief with no product of that day that may be it, or an answer of the vet that
 * says she was treated with no medicine given since the vet was asked.
 */
export function withoutProduct(animal: Animal, today: CalendarDay): WithoutProduct[] {
  const uses = usesOf(animal, today);
  return visitsTo(animal, today).flatMap(
    ([visit, { date: day, 'pain-relief': word, 'vet-answer': answer }]) => {
      const isThere = (from: CalendarDay, may: (use: ProductUse) => boolean) =>
        uses.some((one) => (one.visit === visit || (one.first <= day && one.last >= from)) && may(one.use));
      const without: WithoutProduct[] = [];
      if (word === 'given' && !isThere(day, mayBePainRelief))
        without.push({ why: 'pain-relief', day, visit });
      if (answer?.treated && !isThere(answer.to, isMedicine)) without.push({ why: 'treated', day, visit });
      return without;
    },
  );
}

/** Not what is no medicine, nor an antimicrobial alone, nor what is put on a lesion; unless its substance says that it is. */
export function mayBePainRelief(use: ProductUse): boolean {
  const groups = substancesOf(use).map(({ group }) => group);
  if (groups.some((group) => group !== 'antimicrobial')) return true;
  const isPutOn = use.lesion !== undefined || /\btopical\b/i.test(use.route ?? '');
  return groups.length === 0 && use.class !== 'not a medicine' && !isPutOn;
}

/** One use of a product. */
export interface Use {
  readonly use: ProductUse;
  /** Position in `animal.visits`, the day of that visit, and position among its products. */
  readonly visit: number;
  readonly date: CalendarDay;
  readonly at: number;
  /** The first and the last day it was given. */
  readonly first: CalendarDay;
  readonly last: CalendarDay;
}

/** All uses of products written by a day, in the order of the file. */
export function usesOf(animal: Animal, today: CalendarDay): Use[] {
  return visitsTo(animal, today).flatMap(([visit, { date, products = [] }]) =>
    products.map((use, at) => {
      const first = use.on ?? date;
      return { use, visit, date, at, first, last: use.until ?? first };
    }),
  );
}

function visitsTo({ visits }: Animal, today: CalendarDay): [number, Visit][] {
  return [...visits.entries()].filter(([, { date }]) => date <= today);
}

/** One reason to withhold, from its first dose to its last withheld day or, where that is not known, for a year. */
interface Part {
  readonly from: CalendarDay;
  readonly to: CalendarDay;
  readonly product: string;
  readonly day: CalendarDay;
  readonly notKnown?: NotKnown;
  readonly use?: ProductUse;
}

function partsOf(animal: Animal, farm: Farm, today: CalendarDay): Record<Side, Part[]> {
  const left = leftOn(animal, today)?.on;
  const both = [
    ...withoutProduct(animal, today).map(({ why, day }) => unknownPart(day, { why, day })),
    ...antimicrobialBaths(farm)
      .filter(({ from = '' }) => from <= today && (left === undefined || from <= left))
      .map(({ from, to = today, product }) => {
        const day = to < today ? to : today;
        return unknownPart(from ?? day, { why: 'footbath', product, day });
      }),
  ];
  const uses = usesOf(animal, today);
  const of = (side: Side) => [
    ...uses.flatMap((one) => partOf(animal, one, side, writtenPeriod(one.use, side, farm['milkings-a-day']))),
    ...both,
  ];
  return { milk: of('milk'), meat: of('meat') };
}

function partOf(animal: Animal, { use, first, last: day }: Use, side: Side, period: WrittenPeriod): Part[] {
  const { product } = use;
  const unknown = (why: NotKnown['why'], days?: number) => [
    { ...unknownPart(first, { why, product, day, ...given({ days }) }), use },
  ];
  const known = (to: CalendarDay) => [{ from: first, to, product, day, use }];
  if (period.outcome === 'nothing' || period.outcome === 'none-written') return [];
  if (period.outcome === 'milkings-a-day-not-known') return unknown('milkings');
  const after = side === 'milk' ? use['milk-days-after-calving'] : undefined;
  const out = side === 'milk' ? lastOutOfMilk(animal, first, day) : undefined;
  if (period.outcome === 'not-recorded' && (!out || after === undefined)) return unknown('not-recorded');
  const counted = period.outcome === 'days' ? heldTo(day, period.days) : day;
  if (!out) return known(counted);
  if (after === undefined) return unknown(out.why);
  const [calved] = (animal.calvings ?? []).filter((on) => on > out.day).toSorted();
  if (calved === undefined) return unknown('until-calving', after);
  const fromCalving = after === 0 ? addDays(calved, -1) : heldTo(calved, Math.ceil(after));
  return known(fromCalving > counted ? fromCalving : counted);
}

/** A slip of many zeros is shown as withheld for good, not as a day no calendar has. */
function heldTo(from: CalendarDay, days: number): CalendarDay {
  return addDays(from, Math.min(days, daysBetween(from, lastCalendarDay)));
}

/** The last day she was given it and is not shown to have been in milk: only a calving brings her into milk again. */
function lastOutOfMilk(animal: Animal, first: CalendarDay, last: CalendarDay) {
  const out = [last, ...(animal.calvings ?? []).map((on) => addDays(on, -1))]
    .filter((day) => day >= first && day <= last)
    .toSorted()
    .map((day) => ({ day, shown: inMilkOn(animal, day) }))
    .findLast(({ shown }) => shown !== 'in-milk');
  return (
    out && {
      day: out.day,
      why: out.shown === 'not-known' ? ('lactation' as const) : ('not-in-milk' as const),
    }
  );
}

function unknownPart(from: CalendarDay, notKnown: NotKnown): Part {
  const { day, product = '' } = notKnown;
  return { from, to: heldTo(day, fixedDays('withdrawal-unknown-shown') - 1), product, day, notKnown };
}

/** What runs on a day and all that joins on to it later; a part that had ended before that day does not count. */
function stateOn(parts: readonly Part[], on: CalendarDay): Withheld {
  const run = runsOf(parts.filter(({ to }) => to >= on)).find(({ from, to }) => from <= on && on <= to);
  if (!run) return { outcome: 'nothing' };
  const [first, ...more] = reasonsOf(run.parts);
  if (first) return { outcome: 'not-known', why: [first, ...more] };
  const { product, day } = run.parts.find(({ to }) => to === run.to)!;
  return { outcome: 'withheld', lastWithheld: run.to, firstClear: addDays(run.to, 1), product, day };
}

/** Each reason once, earliest first. */
function reasonsOf(parts: readonly Part[]): NotKnown[] {
  const reasons = new Map(
    parts.flatMap(({ notKnown }) => (notKnown ? [[JSON.stringify(notKnown), notKnown] as const] : [])),
  );
  return [...reasons.values()].sort((a, b) => compareDays(a.day, b.day));
}

/** Parts that overlap, or of which one begins on the day another would be clear, as one run. */
function runsOf(parts: readonly Part[]) {
  const runs: { readonly from: CalendarDay; to: CalendarDay; readonly parts: Part[] }[] = [];
  for (const part of parts.toSorted((a, b) => compareDays(a.from, b.from))) {
    const before = runs.at(-1);
    if (!before || part.from > addDays(before.to, 1))
      runs.push({ from: part.from, to: part.to, parts: [part] });
    else {
      before.parts.push(part);
      if (part.to > before.to) before.to = part.to;
    }
  }
  return runs;
}

/** How an animal left a farm. */
export interface Left {
  readonly on: CalendarDay;
  readonly result: EpisodeResult;
  /** Position in `animal.episodes`. */
  readonly episode: number;
  /** The day the new keeper was informed in writing. */
  readonly told?: CalendarDay;
}

/** Her last leaving by a day, unless she was seen again after it. */
export function leftOn({ episodes = [], visits }: Animal, today: CalendarDay): Left | undefined {
  const episode = episodes.findLastIndex(({ result }) => result !== undefined && leftFarm.has(result));
  const { ended: on, result, 'told-in-writing': told } = episodes[episode] ?? {};
  if (on === undefined || result === undefined || on > today) return undefined;
  if (visits.some(({ date, kind }) => date > on && date <= today && kind !== 'report')) return undefined;
  return { on, result, episode, ...(told !== undefined && told <= today ? { told } : {}) };
}
