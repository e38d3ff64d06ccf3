import { episodesOf } from '../healing/episode.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isInPeriod, type Period } from '../record/period.js';
import type { CaseRecord } from '../record/practice.js';

/** The cases of a period: those with a visit in it, and those whose trouble had begun by its end and had not ended before it. */
export function casesIn(
  cases: readonly CaseRecord[],
  period: Period | undefined,
  today: CalendarDay,
): readonly CaseRecord[] {
  if (!period) return cases;
  return cases.filter(
    ({ animal }) =>
      animal.visits.some(({ date }) => isInPeriod(date, period)) ||
      episodesOf(animal, today).some(({ lameSince, visits, ended }) => {
        const [begins] = [lameSince, animal.visits[visits[0] ?? -1]?.date]
          .filter((day) => day !== undefined)
          .toSorted();
        return begins !== undefined && begins <= period.to && (ended ?? period.from) >= period.from;
      }),
  );
}
