import { episodesOf, type Episode } from '../healing/episode.js';
import { gaitStanding } from '../healing/gait-standing.js';
import type { GaitScore } from '../healing/standing.js';
import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { animalNames } from './same-animal.js';
import { timeToEvent, type CaseTime, type TimeToEvent } from './time-to-event.js';

/**
 * How long cows took from the first walk scored lame to the first that counts as sound.
 *
 * Why so strict: a walk on a block says nothing of the foot, so it neither ends the time nor keeps it running, unless she was
 * lame even on it. Sound is a score below the lame mark, no block on, at least 7 days after the last came off. The
 * last lame walk before it is the other end. A run of trouble without a lame walk has no time to count.
 *
 * Shape:   farms, day → runs of trouble of all their animals together
 * Unit:    days
 * Checked: tests/herd/time-to-sound.test.ts
 */
export function timeToSound(farms: readonly FarmRecord[], today: CalendarDay): TimeToEvent {
  const cases = farms.flatMap((farm) =>
    farm.cases.flatMap((record) =>
      episodesOf(record.animal, today).flatMap((episode) => soundTime(farm, record, episode, today) ?? []),
    ),
  );
  return timeToEvent(cases, animalNames(farms));
}

function soundTime(
  farm: FarmRecord,
  record: CaseRecord,
  episode: Episode,
  today: CalendarDay,
): CaseTime | undefined {
  const { scores } = gaitStanding(record.animal, farm.farm, episode, today);
  const firstLame = scores.findIndex(({ lame }) => lame);
  const start = scores[firstLame];
  if (!start) return undefined;
  const after = scores.slice(firstLame);
  const sound = after.find((score) => countsAsSound(farm, record, episode, score));
  const lastLame = after.findLast((score) => score.lame && (!sound || score.visit < sound.visit)) ?? start;
  return {
    farm: farm.slug,
    slug: record.slug,
    animal: record.animal.animal,
    from: start.date,
    days: {
      after: daysBetween(start.date, lastLame.date),
      by: sound ? daysBetween(start.date, sound.date) : Infinity,
    },
  };
}

/** As the record stood on the day of the walk. */
function countsAsSound(farm: FarmRecord, record: CaseRecord, episode: Episode, score: GaitScore): boolean {
  if (score.lame || score.block !== 'off') return false;
  const upTo = { ...episode, visits: episode.visits.filter((at) => at <= score.visit) };
  return gaitStanding(record.animal, farm.farm, upTo, score.date).standing === 'sound';
}
