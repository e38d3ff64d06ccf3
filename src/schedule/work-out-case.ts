import { growingConditions } from '../growth/growing-conditions.js';
import { growthOfAnimal } from '../growth/growth-of-animal.js';
import type { Prior } from '../growth/what-is-known.js';
import { closingsOf } from '../healing/closing/closing-of-ulcer.js';
import { standingOfCase } from '../healing/standing-of-case.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { calvingNear } from './calving-near.js';
import type { CaseWork } from './case-work.js';
import { dueItems } from './due-items.js';
import { gapsOfCase } from './gaps-of-case.js';
import { nextLift } from './next-lift.js';
import { noticesOfCase } from './notices-of-case.js';

/** What a case is worked out with, besides its file and its farm. */
export interface CaseKnown {
  readonly business: Business;
  readonly today: CalendarDay;
  /** What is held of her growth beforehand. */
  readonly prior: Prior;
  /** Whether a picture named in the record is there; without it none is asked after. */
  readonly isPictureThere?: (file: string) => boolean;
}

/** All that is worked out on one case for a day: growth, closing, standing, what is due, what is for the vet, what is missing. */
export function workOutCase(farm: FarmRecord, record: CaseRecord, known: CaseKnown): CaseWork {
  const { business, today, prior, isPictureThere } = known;
  const growth = growthOfAnimal(record.animal, growingConditions(farm.farm), { today, prior });
  const closings = closingsOf(record.animal, today);
  const standing = standingOfCase(record, farm, growth, today);
  const notices = noticesOfCase(record, farm, growth, standing, today);
  const due = dueItems(record, farm, business, growth, standing, notices, today);
  const gaps = gapsOfCase(record, {
    farmRecord: farm,
    business,
    standing,
    today,
    ...(isPictureThere ? { isPictureThere } : {}),
  });
  const lift = nextLift(farm.farm, { due }, today);
  const calving =
    standing.closed && lift === undefined
      ? undefined
      : calvingNear(record.animal, lift === undefined ? [today] : [today, lift]);
  return {
    record,
    growth,
    closings,
    standing,
    due,
    notices,
    gaps,
    ...(calving ? { calvingNear: calving } : {}),
  };
}
