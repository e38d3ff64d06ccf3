import { blockTimeline } from '../../healing/block-timeline.js';
import { footSeen } from '../../healing/foot-seen.js';
import { wrapTimeline } from '../../healing/wrap-timeline.js';
import { addDays } from '../../record/calendar-day.js';
import type { DueContext, DueDraft } from './due-context.js';

/**
 * Blocks that are on: a first look, then off.
 *
 * A look is a `checked` or `worn` event, or a lift of that foot after the block went on. Of a block already on, the
 * days count from the day it was first seen, since nobody knows the day it went on.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function blockDue({ animal, interval, today }: DueContext): DueDraft[] {
  return blockTimeline(animal, today).on.flatMap((span): DueDraft[] => {
    const { foot, claw, from, looks } = span;
    const seen =
      looks.length > 0 ||
      animal.visits.some(
        (visit, at) =>
          at > span.visit && visit.date <= today && visit.date > from && footSeen(animal, visit, foot),
      );
    const shared = { who: 'trimmer', basis: 'default', foot, claw } as const;
    const why = (key: string) => ({ key: `due.why.${key}`, values: { day: from, days: span.days.atLeast } });
    const off: DueDraft = {
      ...shared,
      what: 'block-off',
      by: addDays(from, interval('block-off')),
      overdueFrom: addDays(from, interval('block-off-overdue') + 1),
      why: why(span.fitted ? 'block-off' : 'block-off-already-on'),
    };
    if (seen) return [off];
    const look: DueDraft = {
      ...shared,
      what: 'block-look',
      by: addDays(from, interval('block-look')),
      overdueFrom: addDays(from, interval('block-look-overdue') + 1),
      why: why('block-look'),
    };
    return [look, off];
  });
}

/** Wraps that are on: off, by the farm, unless the farm was asked to take it off by a day of its own. */
export function wrapDue({ animal, interval, today }: DueContext): DueDraft[] {
  return wrapTimeline(animal, today)
    .filter(({ end, visit }) => !end && !askedOff(visit))
    .map(({ foot, from }) => ({
      what: 'wrap-off',
      by: addDays(from, interval('wrap-off')),
      overdueFrom: addDays(from, interval('wrap-off-overdue') + 1),
      who: 'farm',
      basis: 'default',
      why: { key: 'due.why.wrap-off', values: { day: from, foot } },
      foot,
    }));

  function askedOff(fittedAt: number): boolean {
    return animal.visits
      .slice(fittedAt)
      .some((visit) => visit['ask-farm']?.some(({ what }) => what === 'wrap off') && visit.date <= today);
  }
}
