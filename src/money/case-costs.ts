import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { type Costs, costsOf } from './costs.js';
import { milkWithheld } from './milk-withheld.js';
import { type ToFinish, toFinish } from './to-finish.js';
import { workDone } from './work-done.js';

/** What the run of trouble she stands in has come to, and what it may still take. */
export interface CaseCosts {
  readonly costs: Costs;
  /** Absent once the case is closed. */
  readonly toFinish?: ToFinish;
}

/**
 * The costs of a case to a day: its run of trouble that is open, else the last.
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
  const { animal } = work.record;
  const { episode, closed } = work.standing;
  const ofRun = new Set(episode.visits);
  const pieces = workDone(animal, slug, today).filter(({ visit }) => ofRun.has(visit));
  const milk = milkWithheld(animal, pieces, farm, today);
  const costs = costsOf({ business, farm }, pieces, {
    days: milk.days.length,
    notKnown: milk.notKnown.length,
  });
  if (!costs) return undefined;
  return { costs, ...(closed ? {} : { toFinish: toFinish(business, work, pieces, today) }) };
}
