import { growingConditions } from '../growth/growing-conditions.js';
import { growthOfAnimal, publishedPrior } from '../growth/growth-of-animal.js';
import { standingOfCase } from '../healing/standing-of-case.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord, Practice } from '../record/practice.js';
import { dueItems } from '../schedule/due-items.js';
import { gapsOfCase } from '../schedule/gaps-of-case.js';
import { noticesOfCase } from '../schedule/notices-of-case.js';
import type { CaseWork } from './case-work.js';

/** All that is worked out on one case for a day: growth, standing, what is due, what is for the vet, what is missing. */
export function workOutCase(
  practice: Practice,
  farm: FarmRecord,
  record: CaseRecord,
  today: CalendarDay,
  isPictureThere?: (file: string) => boolean,
): CaseWork {
  const growth = growthOfAnimal(record.animal, growingConditions(farm.farm), {
    today,
    prior: publishedPrior,
  });
  const standing = standingOfCase(record, farm, growth, today);
  const notices = noticesOfCase(record, farm, growth, standing, today);
  const { business } = practice;
  const due = dueItems(record, farm, business, growth, standing, notices, today);
  const gaps = gapsOfCase(record, {
    farmRecord: farm,
    business,
    standing,
    today,
    ...(isPictureThere ? { isPictureThere } : {}),
  });
  return { record, growth, standing, due, notices, gaps };
}
