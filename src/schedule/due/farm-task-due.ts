import { type CalendarDay, addDays } from '../../record/calendar-day.js';
import type { FarmTask } from '../../record/words.js';
import { fixedDays } from '../../reference/intervals.js';
import { episodeVisits, type DueContext, type DueDraft, openUlcerOrCorium } from './due-item.js';
import { isVets, vetWork } from './vet-due.js';
import { given } from '../../record/given.js';

type Of = Pick<DueContext, 'animal' | 'standing' | 'today'>;

/** What is kept up until its day; every other task is done once, by its day. */
const running: ReadonlySet<FarmTask> = new Set([
  'block watch',
  'straw pen',
  'short walk',
  'keep out of footbath',
  'finish the course',
  'ring if worse',
]);

/** Whether a task of the farm's runs to its day. */
export function runsToItsDay(task: string | undefined): boolean {
  return running.has(task as FarmTask);
}

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
 * request of the same task that nobody answered is then no longer waited for: the newer one took its place. What the
 * vet does himself is not the farm's. A task that ran to a day that is over is a question of whether it was done, and
 * never overdue; only out of the bath she stays while live tissue shows.
 *
 * Checked: tests/schedule/due-items.test.ts, tests/schedule/vet-work-due.test.ts
 */
export function farmTaskDue(context: Of): DueDraft[] {
  const asked = answered(context);
  const isSuperseded = ({ at, what, doneOn }: Asked) =>
    doneOn === undefined &&
    asked.some((later) => later.what === what && later.at > at && later.doneOn !== undefined);
  return asked
    .filter((one) => !isSuperseded(one) && (one.doneOn !== undefined || !isForVet(context, one)))
    .map((one): DueDraft => draftOf(context, one));
}

function isForVet(context: Of, { what, day }: Asked): boolean {
  return (
    isVets(context, what, day) ||
    vetWork(context).some((work) => work.what === what && work.doneOn !== undefined && day <= work.doneOn)
  );
}

function draftOf({ animal, today }: Of, { what, by, day, doneOn }: Asked): DueDraft {
  const draft: DueDraft = {
    what: 'farm-task',
    by,
    who: 'farm',
    basis: 'written',
    why: { key: 'due.why.farm-task', values: { day } },
    task: what,
    ...given({ doneOn }),
  };
  if (!running.has(what)) return { ...draft, overdueFrom: addDays(by, fixedDays('written-grace')) };
  if (doneOn !== undefined || by >= today) return draft;
  const bare = what === 'keep out of footbath' ? openUlcerOrCorium(animal, today) : undefined;
  return bare
    ? { ...draft, why: { key: `due.why.farm-task-${bare.why}`, values: { day, seen: bare.since } } }
    : { ...draft, what: 'farm-task-done' };
}

/** All requests, oldest first, each with the first word that answered it. */
function answered(context: Of): Asked[] {
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
