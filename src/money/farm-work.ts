import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { type Costs, costsOf, type Prices } from './costs.js';
import { type MilkWithheld, milkWithheld } from './milk-withheld.js';
import { type PieceOfWork, workDone } from './work-done.js';

/** All work done on one animal, and the milk withheld of her. */
export interface HerWork {
  readonly record: CaseRecord;
  readonly pieces: readonly PieceOfWork[];
  readonly milk: MilkWithheld;
}

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
  const count = (days: readonly CalendarDay[]) => days.filter(isMeant).length;
  return costsOf(
    prices,
    some.flatMap(({ pieces }) => pieces.filter(({ date }) => isMeant(date))),
    {
      days: some.reduce((sum, { milk }) => sum + count(milk.days), 0),
      notKnown: some.reduce((sum, { milk }) => sum + count(milk.notKnown), 0),
    },
  );
}
