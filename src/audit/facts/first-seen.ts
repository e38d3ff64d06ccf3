import { daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Visit } from '../../record/visit.js';
import { liftsAFoot } from './lifts-a-foot.js';
import type { RunInPeriod } from './run-in-period.js';
import { given } from '../../record/given.js';

/** The day a cow was first seen lame, as somebody wrote it. */
export interface FirstSeen {
  readonly day: CalendarDay;
  /** `written` as lame since; `reported`: scored lame by a report, or on a day she was not presented. */
  readonly from: 'written' | 'reported';
  readonly by?: string;
  /** Time of day, of a report of that day. */
  readonly at?: string;
}

/** From first seen lame to first lifted. */
export interface Waiting {
  readonly seen?: FirstSeen;
  /** The first visit from the day she was seen lame on, of this run, at which a foot was lifted. */
  readonly lifted?: { readonly day: CalendarDay; readonly by: string; readonly at?: string };
  /** Absent unless both days are known. */
  readonly days?: number;
  /** Absent unless both times of day are written. */
  readonly hours?: number;
}

/**
 * How long a lame cow waited for her foot to be lifted.
 *
 * Why a score at the lift itself is no first sight: she would seem to have waited no day, and nobody knows how long she
 * walked lame before. Such a run has no days to count, and the pack says how many those are.
 *
 * Unit:    whole days; hours to a tenth, from the two times written
 * Checked: tests/audit/waiting.test.ts
 */
export function waitingOf(run: RunInPeriod): Waiting {
  const { animal } = run.work.record;
  const seen = firstSeen(run);
  const visit = run.visits.find(
    ([, one]) => liftsAFoot(animal, one) && (seen === undefined || one.date >= seen.day),
  )?.[1];
  if (!visit) return seen ? { seen } : {};
  const lifted = { day: visit.date, by: visit.by, ...given({ at: visit.at }) };
  if (!seen) return { lifted };
  const days = daysBetween(seen.day, lifted.day);
  const hours =
    seen.at === undefined || lifted.at === undefined
      ? undefined
      : (days * 24 * 60 + minutes(lifted.at) - minutes(seen.at)) / 60;
  return {
    seen,
    lifted,
    days,
    // A time of sight after the time of lifting is a slip of the pen: no hours are made of it.
    ...(hours === undefined || hours < 0 ? {} : { hours: Math.round(hours * 10) / 10 }),
  };
}

function firstSeen({ episode, visits, scores }: RunInPeriod): FirstSeen | undefined {
  if (episode.lameSince !== undefined) {
    const at = timeOfReport(visits, episode.lameSince);
    return {
      day: episode.lameSince,
      from: 'written',
      ...given({ by: episode.toldBy, at }),
    };
  }
  const first = scores.find(({ lame }) => lame);
  const visit = first && visits.find(([at]) => at === first.visit)?.[1];
  if (!visit || isLiftingVisit(visit)) return undefined;
  return {
    day: visit.date,
    from: 'reported',
    by: visit['gait-by'] ?? visit.by,
    ...given({ at: visit.at }),
  };
}

function timeOfReport(visits: RunInPeriod['visits'], day: CalendarDay): string | undefined {
  return visits
    .filter(([, { date, kind, at }]) => date === day && kind === 'report' && at !== undefined)
    .map(([, { at }]) => at!)
    .sort()[0];
}

function minutes(time: NonNullable<Visit['at']>): number {
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));
}
