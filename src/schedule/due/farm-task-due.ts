import type { CalendarDay } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import type { FarmTask } from '../../record/words.js';
import {
  dueBy,
  episodeVisits,
  type DueContext,
  type DueDraft,
  openUlcerOrCorium,
  whyDue,
} from './due-item.js';
import { isVets, vetWork } from './vet-due.js';

type Of = Pick<DueContext, 'animal' | 'standing' | 'today'>;

/** What is kept up until its day; every other task is done once, by its day. */
const running: ReadonlySet<string | undefined> = new Set<FarmTask>([
  'block watch',
  'straw pen',
  'short walk',
  'keep out of footbath',
  'finish the course',
  'ring if worse',
]);

/** Whether a task of the farm's runs to its day. */
export function runsToItsDay(task: string | undefined): boolean {
  return running.has(task);
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
  const isSuperseded = ({ at, what }: Asked) =>
    asked.some((later) => later.what === what && later.at > at && later.doneOn !== undefined);
  return asked
    .filter((one) => one.doneOn !== undefined || (!isSuperseded(one) && !isForVet(context, one)))
    .map((one) => draftOf(context, one));
}

function isForVet(context: Of, { what, day }: Asked): boolean {
  return (
    isVets(context, what, day) ||
    vetWork(context).some((work) => work.what === what && work.doneOn !== undefined && day <= work.doneOn)
  );
}

function draftOf({ animal, today }: Of, { what: task, by, day, doneOn }: Asked): DueDraft {
  const why = whyDue('farm-task', { day });
  const draft: DueDraft = {
    what: 'farm-task',
    by,
    who: 'farm',
    basis: 'written',
    why,
    task,
    ...given({ doneOn }),
  };
  if (!running.has(task)) return { ...draft, ...dueBy(by) };
  if (doneOn !== undefined || by >= today) return draft;
  const bare = task === 'keep out of footbath' ? openUlcerOrCorium(animal, today) : undefined;
  if (!bare) return { ...draft, what: 'farm-task-done' };
  return { ...draft, why: whyDue(`farm-task-${bare.why}`, { day, seen: bare.since }) };
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
