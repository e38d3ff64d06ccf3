import type { Archive } from '../herd/archive-on.js';
import type { Practice } from '../record/practice.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { PlacedCase } from '../book/placed-case.js';
import type { FarmWork } from '../round/farm-work.js';

/** What the overview is made of: all farms that read, worked out for a day, and what they teach together. */
export interface OfBusiness {
  readonly practice: Practice;
  readonly farms: readonly OverviewFarm[];
  readonly archive: Archive;
  readonly today: CalendarDay;
  /** Farms left out because their files have errors, by their folder. */
  readonly refused: readonly string[];
}

export interface OverviewFarm extends FarmWork {
  /** In the order of the farm's book. */
  readonly placed: readonly PlacedCase[];
}

/** A case with the farm it is on. */
export interface OnFarm {
  readonly farm: OverviewFarm;
  readonly one: PlacedCase;
}

/** All cases that are open on the day. */
export function openCases({ farms }: OfBusiness): OnFarm[] {
  return farms.flatMap((farm) =>
    farm.placed.filter(({ standing }) => !standing.closed).map((one) => ({ farm, one })),
  );
}

/** An animal where several farms are told of: her number and her farm. Such as: 2086, Quernholt. */
export function animalOnFarm({ farm, one }: OnFarm): string {
  return `${one.record.animal.animal}, ${farm.record.farm.farm}`;
}
