import { type CalendarDay, addDays, latestDay } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import type { FarmTask, VetTask } from '../../record/words.js';
import {
  dueBy,
  episodeVisits,
  type DueContext,
  type DueDraft,
  openUlcerOrCorium,
  whyDue,
} from './due-item.js';
import { blockTimeline } from '../../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../../healing/fixture-span.js';
import { fixedDays } from '../../reference/intervals.js';
import { urgencies, type Urgency } from '../../reference/notices.js';
import type { Notice } from '../notices/notice-rule.js';

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

/** Something the vet said that he does himself. */
interface VetWork {
  readonly what: VetTask;
  readonly on: CalendarDay;
  /** The day of the answer that says so, and of the question it is to. */
  readonly said: CalendarDay;
  readonly to: CalendarDay;
  /** The day from which it counts as done. */
  readonly doneOn?: CalendarDay;
}

type OfVet = Pick<DueContext, 'animal' | 'today'>;

/**
 * What the vet does himself, open and done: his item, never the farm's job.
 *
 * A wrap or a block is done once none that was on between his answer and his day is on any more; anything else once
 * the farm reports it done, or a visit or report of his day or later is on file.
 *
 * Checked: tests/schedule/vet-work-due.test.ts
 */
export function vetWorkDue(context: OfVet): DueDraft[] {
  return vetWork(context).map(({ what: task, on, said, doneOn }) => {
    const why = whyDue('vet-work', { day: said });
    return { what: 'vet-work', ...dueBy(on), who: 'vet', basis: 'written', why, task, ...given({ doneOn }) };
  });
}

/**
 * Whether the vet does himself what was fitted, asked or found on a day: until his own day is over it is then nobody
 * else's job. After that day, with nothing recorded, the standing job is back beside his: nothing may be lost between
 * the two.
 */
export function isVets(context: OfVet, what: VetTask, since: CalendarDay): boolean {
  return vetWork(context).some(
    (work) => work.what === what && work.doneOn === undefined && since <= work.on && work.on >= context.today,
  );
}

/** All that the vet said he does, in the order of his answers. */
export function vetWork({ animal, today }: OfVet): VetWork[] {
  return animal.visits.flatMap((visit, at) => {
    const { to = visit.date, does = [] } = (visit.date <= today && visit['vet-answer']) || {};
    return does.map(({ what, on }) => {
      const work = { what, on, said: visit.date, to };
      const doneOn =
        what === 'wrap off'
          ? offBy(wrapTimeline(animal, today), work, today)
          : what === 'block off'
            ? offBy(blockTimeline(animal, today).spans, work, today)
            : heardOf({ animal, today }, work, at);
      return { ...work, ...given({ doneOn }) };
    });
  });
}

/** The day the last of those came off that were on between his answer and his day; undefined while one is on. */
function offBy(
  spans: readonly FixtureSpan[],
  { said, on }: VetWork,
  today: CalendarDay,
): CalendarDay | undefined {
  // One put on at his day is the next one, not the one he takes off.
  const his = spans.filter(({ from, end }) => (from < on || from <= said) && (!end || end.by >= said));
  if (his.length === 0) return today > on ? on : undefined;
  return his.some(({ end }) => !end) ? undefined : latestDay(his.map(({ end }) => end!.by));
}

function heardOf({ animal, today }: OfVet, { what, on }: VetWork, at: number): CalendarDay | undefined {
  const later = animal.visits.slice(at + 1).filter(({ date }) => date <= today);
  const told = later.flatMap((visit) => visit['farm-did'] ?? []).find((did) => did.what === what);
  return told?.on ?? later.find(({ date }) => date >= on)?.date;
}

/**
 * Answers of the vet that are awaited, and one item to ask for the most urgent notice nobody has asked about.
 *
 * A question of the day that has no answer by the next morning is asked again, one that could wait after a week; what the
 * vet said he comes to do, the morning after his day, where nothing is recorded of it; what was seen again after an answer, that
 * day.
 *
 * Checked: tests/schedule/notices-of-case.test.ts, tests/schedule/vet-work-due.test.ts
 */
export function vetDue(context: DueContext): DueDraft[] {
  const { today } = context;
  const notices = context.notices.filter(({ standing }) => standing);
  const visits = episodeVisits(context).map(([, visit]) => visit);
  const heard = new Set(visits.map((visit) => visit['vet-answer']?.to));
  const urgencyOfAsked = (day: CalendarDay) => mostUrgent(notices.filter(({ asked }) => asked?.on === day));
  const awaited = visits.flatMap(({ vet }): DueDraft[] => {
    if (!vet || vet.asked > today || heard.has(vet.asked)) return [];
    const { asked: day, why: reason } = vet;
    const urgency = urgencyOfAsked(day);
    const again = dueBy(
      addDays(day, fixedDays(urgency === 'notice' ? 'ring-again-notice' : 'ring-again')),
      1,
    );
    const isLate = again.by <= today;
    const what = isLate ? 'vet-ring-again' : 'vet-answer';
    const days = isLate ? again : { by: day };
    const why = whyDue(what, { day, reason });
    return [{ what, ...days, who: isLate ? 'farm' : 'vet', basis: 'record', urgency, why }];
  });
  const promised = vetWork(context)
    .filter(({ on, doneOn }) => doneOn === undefined && on < today)
    .filter(({ on }, at, all) => all.findIndex((one) => one.on === on) === at)
    .map(({ on, said, to, what: task }): DueDraft => {
      const why = whyDue('vet-ring-again-promised', { day: said, from: on });
      const days = dueBy(addDays(on, 1), 1);
      const urgency = urgencyOfAsked(to);
      return { what: 'vet-ring-again', ...days, who: 'farm', basis: 'record', urgency, why, task };
    });
  const again = notices.flatMap(({ seenAgain: seen, answered: last, urgency }): DueDraft[] => {
    if (seen === undefined || last === undefined) return [];
    const why = whyDue('vet-ring-again-seen', { day: last.on, seen });
    return [{ what: 'vet-ring-again', ...dueBy(seen, 1), who: 'farm', basis: 'record', urgency, why }];
  });
  const toAsk = notices.filter(({ asked }) => !asked);
  return [
    ...awaited,
    ...promised,
    ...again.slice(0, 1),
    ...toAsk.slice(0, 1).map(({ rule, urgency, raised, foot, lesion, evidence }): DueDraft => {
      const { key, values } = evidence;
      const why = { key, values: { ...values, rule, urgency, count: toAsk.length } };
      // Asked for on the day it is raised: from the next day on it is late.
      const days = dueBy(raised, 1);
      return {
        what: 'vet-ask',
        ...days,
        who: 'farm',
        basis: 'record',
        urgency,
        why,
        ...given({ foot, lesion }),
      };
    }),
  ];
}

/** How soon the most urgent of them is; nothing named can wait. */
function mostUrgent(notices: readonly Notice[]): Urgency {
  return urgencies.find((urgency) => notices.some((notice) => notice.urgency === urgency)) ?? 'notice';
}

/**
 * Ask the vet before she walks through the bath: while live tissue is exposed and the farm bathes, or will.
 *
 * Due on the day it was found, or the day bathing begins if that is later.
 */
export function footbathDue({ farm, animal, today }: DueContext): DueDraft[] {
  const bare = openUlcerOrCorium(animal, today);
  const bath = farm.footbath?.find(({ to }) => to === undefined || to >= today);
  if (!bare || !bath) return [];
  const { foot, lesion, since: day } = bare;
  const days = dueBy(bath.from !== undefined && bath.from > day ? bath.from : day, 1);
  const why = whyDue(`footbath-ask-vet-${bare.why}`, { day });
  return [{ what: 'footbath-ask-vet', ...days, who: 'farm', basis: 'record', why, foot, lesion }];
}
