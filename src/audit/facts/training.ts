import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';

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
