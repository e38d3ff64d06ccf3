import { type FollowedEpisode, episodesOf, isTroubled } from '../../healing/episode.js';
import { gaitStanding } from '../../healing/gait-standing.js';
import type { GaitScore } from '../../healing/standing.js';
import { type CalendarDay, daysBetween } from '../../record/calendar-day.js';
import { type Period, isInPeriod } from '../../record/period.js';
import type { FarmRecord, CaseRecord } from '../../record/practice.js';
import type { Visit } from '../../record/visit.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { footSeen } from '../../healing/foot-seen.js';
import type { Animal } from '../../record/animal.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { feet, type GaitScale } from '../../record/words.js';
import { given } from '../../record/given.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';

/** One lameness episode of one animal that belongs to the period, whole, as known on the day of the pack. */
export interface RunInPeriod {
  readonly work: CaseWork;
  readonly episode: FollowedEpisode;
  /** The first day the record knows of it: seen lame, or the first visit, whichever is earlier. */
  readonly begins: CalendarDay;
  /** Visits of the run up to the day of the pack, oldest first, with their positions in the file. */
  readonly visits: readonly (readonly [number, Visit])[];
  /** Her scored walks of the run, oldest first. */
  readonly scores: readonly GaitScore[];
  /** How the record knows that she was lame; a run can be trouble in a foot without a word on lameness. */
  readonly lame: 'written' | 'scored' | 'not-recorded';
}

/**
 * The lameness episodes that belong to a period, by the day they began.
 *
 * The rule: a run belongs when it had begun by the last day of the period and had not ended before the first. It then
 * is whole, with what came before the period and what followed: how a cow fared is not cut at a calendar's edge.
 * A cow with two runs stands twice. Visits that found nothing wrong and no lameness make no run.
 *
 * Checked: tests/audit/hand-worked.test.ts
 */
export function runsInPeriod(
  { farm }: FarmRecord,
  worked: readonly CaseWork[],
  period: Period,
  today: CalendarDay,
): RunInPeriod[] {
  return worked
    .flatMap((work) =>
      episodesOf(work.record.animal, today).flatMap((episode): RunInPeriod[] => {
        const { animal } = work.record;
        const visits = episode.visits.map((at) => [at, animal.visits[at]!] as const);
        const { scores } = gaitStanding(animal, farm, episode, today);
        const lame = episode.lameSince
          ? 'written'
          : scores.some((score) => score.lame)
            ? 'scored'
            : 'not-recorded';
        const begins = [episode.lameSince, visits[0]?.[1].date].filter((day) => day !== undefined).sort()[0];
        const isTrouble = lame !== 'not-recorded' || visits.some(([, visit]) => isTroubled(visit));
        const touches =
          begins !== undefined &&
          begins <= period.to &&
          (episode.ended === undefined || episode.ended >= period.from);
        return isTrouble && touches ? [{ work, episode, begins, visits, scores, lame }] : [];
      }),
    )
    .sort((a, b) => (a.begins < b.begins ? -1 : a.begins > b.begins ? 1 : 0));
}

/**
 * Whether a foot came off the ground at a visit: only such a visit keeps a recheck.
 *
 * A word from the farm and a cow not presented lift none. Nor does a visit that only says which feet stayed down.
 */
export function liftsAFoot(animal: Animal, visit: Visit): boolean {
  if (!isLiftingVisit(visit)) return false;
  if (feet.some((foot) => footSeen(animal, visit, foot))) return true;
  const leftDown =
    Object.values(visit.feet ?? {}).some(({ lifted }) => lifted === false) ||
    Object.values(visit.found ?? {}).some(({ lifted }) => lifted === false);
  return !leftDown;
}

/** From first seen lame to first lifted. */
export interface Waiting {
  /** Written as lame since, or scored lame by a report or on a day she was not presented; with the time of a report of that day. */
  readonly seen?: NonNullable<ReturnType<typeof firstSeen>>;
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

function firstSeen({ episode, visits, scores }: RunInPeriod) {
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
