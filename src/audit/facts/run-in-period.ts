import { type Episode, episodesOf } from '../../healing/episode.js';
import { gaitStanding } from '../../healing/gait-standing.js';
import type { GaitScore } from '../../healing/standing.js';
import { isTroubled } from '../../healing/troubled-visit.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Period } from '../../record/period.js';
import type { FarmRecord } from '../../record/practice.js';
import type { Visit } from '../../record/visit.js';
import type { CaseWork } from '../../schedule/case-work.js';

/** One run of trouble of one animal that belongs to the period, whole, as known on the day of the pack. */
export interface RunInPeriod {
  readonly work: CaseWork;
  readonly episode: Episode;
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
 * The runs of trouble that belong to a period, by the day they began.
 *
 * The rule: a run belongs when it had begun by the last day of the period and had not ended before the first. It then
 * stands whole, with what came before the period and what followed: how a cow fared is not cut at a calendar's edge.
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
