import { archiveOn } from '../herd/archive-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { workOutFarm } from '../schedule/work-out-farm.js';
import type { FarmWork } from './farm-work.js';

/** The farms to tell of, each worked out for a day by what the cows of all farms have taught. */
export function workOfFarms(
  practice: Practice,
  farms: readonly FarmRecord[],
  today: CalendarDay,
): FarmWork[] {
  const { business } = practice;
  const priors = archiveOn(practice, today).priors;
  return farms.map((record) => ({
    record,
    business,
    cases: workOutFarm(record, { business, today, priors }),
  }));
}
