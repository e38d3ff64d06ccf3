import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import type { GaitRound } from '../../record/farm.js';
import type { LoggedVisit } from './run-in-period.js';

/** What is on file of somebody's training, as it stood on a day. */
export interface Training {
  readonly standing: 'on-file' | 'run-out' | 'not-on-file';
  readonly training?: string;
  readonly validTo?: CalendarDay;
}

/**
 * The training `business.md` names for a person. Names are compared without regard to case and spaces.
 *
 * A person listed with no training, and one not listed at all, have none on file. Nothing is guessed of either.
 *
 * Checked: tests/audit/training.test.ts
 */
export function trainingOn({ people = [] }: Business, name: string | undefined, day: CalendarDay): Training {
  const person = people.find((one) => name !== undefined && bare(one.name) === bare(name));
  if (person?.training === undefined) return { standing: 'not-on-file' };
  const validTo = person['valid-to'];
  return {
    standing: validTo !== undefined && validTo < day ? 'run-out' : 'on-file',
    training: person.training,
    ...given({ validTo }),
  };
}

/** A name as two spellings of it are compared. */
export function bare(name: string): string {
  return name.trim().replaceAll(/\s+/g, ' ').toLowerCase();
}

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
