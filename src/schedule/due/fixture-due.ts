import { blockTimeline } from '../../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../../healing/fixture-span.js';
import { footSeen } from '../../healing/foot-seen.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import { fixedDays } from '../../reference/intervals.js';
import { standingSigns } from '../notices/standing-signs.js';
import type { DueContext, DueDraft } from './due-item.js';
import { isVets } from './vet-due.js';

/**
 * Blocks that are on: a first look, then off; of a closed case only off.
 *
 * A look is a `checked` or `worn` event, or a lift of that foot after the block went on. Of a block already on, the
 * days count from the day it was first seen, since nobody knows the day it went on. A block that the vet takes off
 * himself is no job of the trimmer's.
 *
 * Checked: tests/schedule/due-items.test.ts, tests/schedule/fixtures-due.test.ts
 */
export function blockDue(context: DueContext): DueDraft[] {
  const { animal, interval, standing, today } = context;
  return blockTimeline(animal, today).on.flatMap((span): DueDraft[] => {
    if (isVets(context, 'block off', span.from)) return [];
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
      ...offAtOnce(context, 'block', span),
    };
    if (seen || standing.closed || off.basis === 'record') return [off];
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

/**
 * Wraps that are on: off, by the farm, unless the farm was asked to take it off by a day of its own, or the vet does
 * it. Of a closed case no task of the farm's is listed, so there the wrap itself always is.
 *
 * Checked: tests/schedule/due-items.test.ts, tests/schedule/fixtures-due.test.ts
 */
export function wrapDue(context: DueContext): DueDraft[] {
  const { animal, interval, standing, today } = context;
  return wrapTimeline(animal, today)
    .filter(({ end, visit, from }) => !end && !askedOff(visit) && !isVets(context, 'wrap off', from))
    .map((span) => ({
      what: 'wrap-off',
      by: addDays(span.from, interval('wrap-off')),
      overdueFrom: addDays(span.from, interval('wrap-off-overdue') + 1),
      who: 'farm',
      basis: 'default',
      why: { key: 'due.why.wrap-off', values: { day: span.from, foot: span.foot } },
      foot: span.foot,
      ...offAtOnce(context, 'wrap', span),
    }));

  function askedOff(fittedAt: number): boolean {
    if (standing.closed) return false;
    return animal.visits
      .slice(fittedAt)
      .some((visit) => visit['ask-farm']?.some(({ what }) => what === 'wrap off') && visit.date <= today);
  }
}

/**
 * Off at once, where the record shows since it went on that the foot swells above it, or that she walks worse; that
 * it has slipped or is soaked no record tells, so the words of every such job say it.
 */
function offAtOnce(
  { animal, standing }: DueContext,
  kind: 'block' | 'wrap',
  { foot, from, visit: fittedAt }: FixtureSpan,
): Partial<DueDraft> {
  const { scores } = standing.gait;
  const signs = [...standingSigns(animal, standing.episode.visits, scores).values()].at(-1) ?? [];
  const swollen = signs.find(
    (one) => one.sign === 'swollen above foot' && one.foot === foot && one.seen > from,
  );
  const [before, now] = [scores.findLast(({ visit }) => visit <= fittedAt), scores.at(-1)];
  const worse =
    before && now && now.visit > fittedAt && now.scale === before.scale && now.score > before.score;
  const since: readonly [CalendarDay, string] | undefined = swollen
    ? [swollen.seen, 'swollen']
    : worse
      ? [now.date, 'worse']
      : undefined;
  if (since === undefined) return {};
  const [day, sign] = since;
  return {
    by: day,
    overdueFrom: addDays(day, fixedDays('written-grace')),
    basis: 'record',
    why: { key: `due.why.${kind}-off-at-once-${sign}`, values: { day: from, seen: day, foot } },
  };
}
