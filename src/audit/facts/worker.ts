import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { GaitRound } from '../../record/farm.js';
import type { LoggedVisit } from './logged-visit.js';
import { type Training, bare, trainingOn } from './training.js';

/** Somebody who lifted feet or scored the herd in the period. */
export interface Worker {
  readonly name: string;
  /** Visits at which this person lifted a foot. */
  readonly lifted: number;
  readonly animals: number;
  /** Of those visits: tools said to be disinfected; the others say no, or nothing. */
  readonly disinfected: number;
  readonly rounds: number;
  readonly first: CalendarDay;
  readonly last: CalendarDay;
  /** As it stood on the last of those days. */
  readonly training: Training;
}

/** Who did the work of a period, most lifted visits first; each with the training on file. */
export function workersOf(
  business: Business,
  visits: readonly LoggedVisit[],
  rounds: readonly GaitRound[],
): Worker[] {
  const lifted = visits.filter((visit) => visit.lifted);
  const named = [
    ...lifted.map(({ visit }) => ({ name: visit.by, day: visit.date })),
    ...rounds.flatMap(({ by, date }) => (by === undefined ? [] : [{ name: by, day: date }])),
  ];
  const names = new Map(named.toReversed().map(({ name }) => [bare(name), name]));
  return [...names]
    .map(([key, name]): Worker => {
      const hers = lifted.filter(({ visit }) => bare(visit.by) === key);
      const days = named.filter((one) => bare(one.name) === key).map(({ day }) => day).sort(); // prettier-ignore
      return {
        name,
        lifted: hers.length,
        animals: new Set(hers.map(({ record }) => record.slug)).size,
        disinfected: hers.filter(({ visit }) => visit['tools-disinfected'] === true).length,
        rounds: rounds.filter(({ by }) => by !== undefined && bare(by) === key).length,
        first: days[0]!,
        last: days.at(-1)!,
        training: trainingOn(business, name, days.at(-1)!),
      };
    })
    .sort((a, b) => b.lifted - a.lifted || (a.name < b.name ? -1 : 1));
}
