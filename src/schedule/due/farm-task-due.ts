import { type CalendarDay, addDays } from '../../record/calendar-day.js';
import type { FarmTask } from '../../record/words.js';
import { fixedDays } from '../../reference/intervals.js';
import { episodeVisits, type DueContext, type DueDraft } from './due-context.js';

interface Asked {
  readonly at: number;
  readonly what: FarmTask;
  readonly by: CalendarDay;
  readonly day: CalendarDay;
  doneOn?: CalendarDay;
}

/**
 * What the farm was asked to do, open and done.
 *
 * Why this way: a word that a task was done answers the latest request that stood on the day it was done. An older
 * request of the same task that nobody answered is then no longer waited for: the newer one took its place.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function farmTaskDue(context: Pick<DueContext, 'animal' | 'standing'>): DueDraft[] {
  const asked = answered(context);
  const isSuperseded = ({ at, what, doneOn }: Asked) =>
    doneOn === undefined &&
    asked.some((later) => later.what === what && later.at > at && later.doneOn !== undefined);
  return asked
    .filter((one) => !isSuperseded(one))
    .map(({ what, by, day, doneOn }): DueDraft => ({
      what: 'farm-task',
      by,
      overdueFrom: addDays(by, fixedDays('written-grace')),
      who: 'farm',
      basis: 'written',
      why: { key: 'due.why.farm-task', values: { day } },
      task: what,
      ...(doneOn === undefined ? {} : { doneOn }),
    }));
}

/** All requests, oldest first, each with the first word that answered it. */
function answered(context: Pick<DueContext, 'animal' | 'standing'>): Asked[] {
  const visits = episodeVisits(context);
  const asked = visits.flatMap(([at, visit]) =>
    (visit['ask-farm'] ?? []).map(({ what, by }): Asked => ({ at, what, by, day: visit.date })),
  );
  for (const [at, visit] of visits)
    for (const { what, on } of visit['farm-did'] ?? []) {
      const stood = asked.filter((one) => one.what === what && one.at <= at && one.day <= on);
      const latest = stood.filter((one) => one.at === stood.at(-1)?.at);
      const answers = latest.find(({ doneOn }) => doneOn === undefined);
      if (answers) answers.doneOn = on;
    }
  return asked;
}
