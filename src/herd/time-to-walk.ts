import { episodesOf, type Episode } from '../healing/episode.js';
import { gaitStanding } from '../healing/gait-standing.js';
import type { GaitScore } from '../healing/standing.js';
import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { walkOf } from '../reference/scales.js';
import { animalNames } from '../record/same-animal.js';
import { timeToEvent, type CaseTime, type TimeToEvent } from './time-to-event.js';

/** What is waited for in a walk: below the lame mark, or the soundest score of the scale. */
export type WalkMark = 'not-lame' | 'sound';

/**
 * How long cows took from the first walk scored lame to the first that counts as not lame, or as sound.
 *
 * Why so strict: a walk on a block says nothing of the foot, so it neither ends the time nor keeps it running, unless she was
 * lame even on it. A walk counts with no block on, at least 7 days after the last came off. The last walk that was not so
 * yet is the other end. A run of trouble without a lame walk has no time to count.
 *
 * Shape:   farms, day, what is waited for → runs of trouble of all their animals together
 * Unit:    days
 * Checked: tests/herd/time-to-walk.test.ts
 */
export function timeToWalk(farms: readonly FarmRecord[], today: CalendarDay, mark: WalkMark): TimeToEvent {
  const cases = farms.flatMap((farm) =>
    farm.cases.flatMap((record) =>
      episodesOf(record.animal, today).flatMap(
        (episode) => walkTime(farm, record, episode, today, mark) ?? [],
      ),
    ),
  );
  return timeToEvent(cases, animalNames(farms));
}

function walkTime(
  farm: FarmRecord,
  record: CaseRecord,
  episode: Episode,
  today: CalendarDay,
  mark: WalkMark,
): CaseTime | undefined {
  const { scores } = gaitStanding(record.animal, farm.farm, episode, today);
  const firstLame = scores.findIndex(({ lame }) => lame);
  const start = scores[firstLame];
  if (!start) return undefined;
  const after = scores.slice(firstLame);
  const isThere = ({ scale, score, lame }: GaitScore) =>
    mark === 'sound' ? walkOf(scale, score) === 'sound' : !lame;
  const came = after.find((score) => isThere(score) && counts(farm, record, episode, score));
  const isNotYet = (score: GaitScore) => score.lame || (score.block === 'off' && !isThere(score));
  const lastNot = after.findLast((score) => isNotYet(score) && (!came || score.visit < came.visit)) ?? start;
  return {
    farm: farm.slug,
    slug: record.slug,
    animal: record.animal.animal,
    from: start.date,
    days: {
      after: daysBetween(start.date, lastNot.date),
      by: came ? daysBetween(start.date, came.date) : Infinity,
    },
  };
}

/** Off the block and long enough after it, as the record stood on the day of the walk. */
function counts(farm: FarmRecord, record: CaseRecord, episode: Episode, score: GaitScore): boolean {
  if (score.lame || score.block !== 'off') return false;
  const upTo = { ...episode, visits: episode.visits.filter((at) => at <= score.visit) };
  return gaitStanding(record.animal, farm.farm, upTo, score.date).standing === 'sound';
}
