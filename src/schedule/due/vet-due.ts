import { blockTimeline } from '../../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../../healing/fixture-span.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import type { VetTask } from '../../record/words.js';
import { fixedDays } from '../../reference/intervals.js';
import { type DueContext, type DueDraft, episodeVisits, openUlcerOrCorium } from './due-item.js';
import { given } from '../../record/given.js';
import { urgencies, type Urgency } from '../../reference/notices.js';
import type { Notice } from '../notices/notice-rule.js';

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

type Of = Pick<DueContext, 'animal' | 'today'>;

/**
 * What the vet does himself, open and done: his item, never the farm's job.
 *
 * A wrap or a block is done once none that was on between his answer and his day is on any more; anything else once
 * the farm reports it done, or a visit or report of his day or later is on file.
 *
 * Checked: tests/schedule/vet-work-due.test.ts
 */
export function vetWorkDue(context: Of): DueDraft[] {
  return vetWork(context).map(({ what, on, said, doneOn }): DueDraft => ({
    what: 'vet-work',
    by: on,
    overdueFrom: addDays(on, fixedDays('written-grace')),
    who: 'vet',
    basis: 'written',
    why: { key: 'due.why.vet-work', values: { day: said } },
    task: what,
    ...given({ doneOn }),
  }));
}

/**
 * Whether the vet does himself what was fitted, asked or found on a day: until his own day is over it is then nobody
 * else's job. After that day, with nothing recorded, the standing job is back beside his: nothing may be lost between
 * the two.
 */
export function isVets(context: Of, what: VetTask, since: CalendarDay): boolean {
  return vetWork(context).some(
    (work) => work.what === what && work.doneOn === undefined && since <= work.on && work.on >= context.today,
  );
}

/** All that the vet said he does, in the order of his answers. */
export function vetWork({ animal, today }: Of): VetWork[] {
  return [...animal.visits.entries()].flatMap(([at, visit]) => {
    const { to = visit.date, does = [] } = (visit.date <= today && visit['vet-answer']) || {};
    return does.map(({ what, on }) => {
      const stretch = { said: visit.date, on, today };
      const doneOn =
        what === 'wrap off'
          ? offBy(wrapTimeline(animal, today), stretch)
          : what === 'block off'
            ? offBy(blockTimeline(animal, today).spans, stretch)
            : heardOf({ animal, today }, what, on, at);
      return { what, on, said: visit.date, to, ...given({ doneOn }) };
    });
  });
}

/** The day the last of those came off that were on between his answer and his day; undefined while one is on. */
function offBy(
  spans: readonly FixtureSpan[],
  { said, on, today }: { readonly said: CalendarDay; readonly on: CalendarDay; readonly today: CalendarDay },
): CalendarDay | undefined {
  // One put on at his day is the next one, not the one he takes off.
  const his = spans.filter(({ from, end }) => (from < on || from <= said) && (!end || end.by >= said));
  if (his.length === 0) return today > on ? on : undefined;
  if (his.some(({ end }) => !end)) return undefined;
  return his
    .map(({ end }) => end?.by ?? said)
    .sort()
    .at(-1);
}

function heardOf({ animal, today }: Of, what: VetTask, on: CalendarDay, at: number): CalendarDay | undefined {
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
  const { notices, today } = context;
  const visits = episodeVisits(context).map(([, visit]) => visit);
  const answered = new Set(visits.map((visit) => visit['vet-answer']?.to));
  const awaited = visits.flatMap(({ vet }): DueDraft[] => {
    if (!vet || vet.asked > today || answered.has(vet.asked)) return [];
    const about = notices.filter(({ standing, asked }) => standing && asked?.on === vet.asked);
    const urgency = mostUrgent(about);
    const by = addDays(vet.asked, fixedDays(urgency === 'notice' ? 'ring-again-notice' : 'ring-again'));
    const again = by <= today;
    const key = again ? 'vet-ring-again' : 'vet-answer';
    return [
      {
        what: key,
        by: again ? by : vet.asked,
        ...(again ? { overdueFrom: addDays(by, 1) } : {}),
        who: again ? 'farm' : 'vet',
        basis: 'record',
        urgency,
        why: { key: `due.why.${key}`, values: { day: vet.asked, reason: vet.why } },
      },
    ];
  });
  const promised = vetWork(context)
    .filter(({ on, doneOn }) => doneOn === undefined && on < today)
    .filter(({ on }, at, all) => all.findIndex((one) => one.on === on) === at)
    .map(({ on, said, to, what }): DueDraft => ({
      what: 'vet-ring-again',
      by: addDays(on, 1),
      overdueFrom: addDays(on, 2),
      who: 'farm',
      basis: 'record',
      urgency: mostUrgent(notices.filter(({ standing, asked }) => standing && asked?.on === to)),
      why: { key: 'due.why.vet-ring-again-promised', values: { day: said, from: on } },
      task: what,
    }));
  const again = notices.flatMap(({ standing, seenAgain: by, answered: last, urgency }): DueDraft[] => {
    if (!standing || by === undefined || last === undefined) return [];
    return [
      {
        what: 'vet-ring-again',
        by,
        overdueFrom: addDays(by, 1),
        who: 'farm',
        basis: 'record',
        urgency,
        why: { key: 'due.why.vet-ring-again-seen', values: { day: last.on, seen: by } },
      },
    ];
  });
  const rung = [...awaited, ...promised, ...again.slice(0, 1)];
  const toAsk = notices.filter(({ standing, asked }) => standing && !asked);
  const [first] = toAsk;
  if (!first) return rung;
  const { rule, urgency, raised, foot, lesion, evidence } = first;
  return [
    ...rung,
    {
      what: 'vet-ask',
      by: raised,
      // Asked for on the day it is raised: from the next day on it is late.
      overdueFrom: addDays(raised, 1),
      who: 'farm',
      basis: 'record',
      urgency,
      why: { key: evidence.key, values: { ...evidence.values, rule, urgency, count: toAsk.length } },
      ...(foot ? { foot } : {}),
      ...(lesion ? { lesion } : {}),
    },
  ];
}

/** How soon the most urgent of them is; nothing named can wait. */
function mostUrgent(notices: readonly Notice[]): Urgency {
  return urgencies.find((urgency) => notices.some((notice) => notice.urgency === urgency)) ?? 'notice';
}

/**
 * Ask the vet before she walks through the bath: while live tissue lies bare and the farm bathes, or will.
 *
 * Due on the day it was found, or the day bathing begins if that is later.
 */
export function footbathDue(context: DueContext): DueDraft[] {
  const { farm, animal, today } = context;
  const bare = openUlcerOrCorium(animal, today);
  const bath = (farm.footbath ?? []).find(({ to }) => to === undefined || to >= today);
  if (!bare || !bath) return [];
  const by = bath.from !== undefined && bath.from > bare.since ? bath.from : bare.since;
  const { foot, lesion } = bare;
  return [
    {
      what: 'footbath-ask-vet',
      by,
      overdueFrom: addDays(by, 1),
      who: 'farm',
      basis: 'record',
      why: { key: `due.why.footbath-ask-vet-${bare.why}`, values: { day: bare.since } },
      foot,
      ...(lesion ? { lesion } : {}),
    },
  ];
}
