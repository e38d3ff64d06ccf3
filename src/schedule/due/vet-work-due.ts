import { blockTimeline } from '../../healing/block-timeline.js';
import type { FixtureSpan } from '../../healing/fixture-span.js';
import { wrapTimeline } from '../../healing/wrap-timeline.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import type { VetTask } from '../../record/words.js';
import { fixedDays } from '../../reference/intervals.js';
import type { DueContext, DueDraft } from './due-context.js';
import { given } from '../../record/given.js';

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
