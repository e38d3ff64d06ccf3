import { growingConditions } from '../growth/growth-line.js';
import { type ReadingWorthTaking, worthMeasuring } from '../growth/worth-measuring/worth-measuring.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { CaseWork } from './case-work.js';
import { nextLift } from './next-lift.js';
import { lesionsUnderNotice } from './work-out-case.js';

const daysAWeek = 7;

/**
 * The one reading at her next lift that would narrow a date most.
 *
 * Valid:   undefined where her case is closed, no day for the lift is known, or no reading narrows enough
 * Checked: tests/schedule/reading-to-take.test.ts
 */
export function readingToTake(
  farm: Farm,
  work: CaseWork,
  today: CalendarDay,
): ReadingWorthTaking | undefined {
  const next = nextLift(farm, work, today);
  if (next === undefined || work.standing.closed) return undefined;
  const weeks = farm['every-weeks'];
  return worthMeasuring(
    work.record.animal,
    growingConditions(farm),
    { today, prior: work.growth.prior, underNotice: lesionsUnderNotice(work.record.animal, work.notices) },
    { next, ...(weeks === undefined ? {} : { daysToSecond: weeks * daysAWeek }) },
  );
}
