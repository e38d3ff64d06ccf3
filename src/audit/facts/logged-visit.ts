import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import type { Visit } from '../../record/visit.js';
import type { GaitScale } from '../../record/words.js';
import { gaitScale } from '../../reference/scales.js';
import { liftsAFoot } from './lifts-a-foot.js';

/** One visit of the period. */
export interface LoggedVisit {
  readonly record: CaseRecord;
  /** Position in the file. */
  readonly at: number;
  readonly visit: Visit;
  /** A foot came off the ground. */
  readonly lifted: boolean;
  readonly scale?: GaitScale;
  /** Scored at or above the lame mark of its scale. */
  readonly lame: boolean;
}

/** Every visit of a period on one farm, oldest first: a visit belongs by its own day, whatever run it is of. */
export function loggedVisits(farm: FarmRecord, period: Period, today: CalendarDay): LoggedVisit[] {
  return farm.cases
    .flatMap((record) =>
      [...record.animal.visits.entries()].flatMap(([at, visit]): LoggedVisit[] => {
        if (!isInPeriod(visit.date, period) || visit.date > today) return [];
        const scale = gaitScaleOn(farm.farm, visit.date);
        const lame =
          visit.gait !== undefined && scale !== undefined && visit.gait >= gaitScale[scale].lameFrom;
        return [
          { record, at, visit, lifted: liftsAFoot(record.animal, visit), lame, ...(scale ? { scale } : {}) },
        ];
      }),
    )
    .sort((a, b) => (a.visit.date < b.visit.date ? -1 : a.visit.date > b.visit.date ? 1 : 0));
}
