import { blockTimeline } from '../../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../../healing/fixture-span.js';
import { footSeen } from '../../healing/foot-seen.js';
import { standingSigns } from '../notices/standing-signs.js';
import { type DueContext, type DueDraft, dueAfter, dueBy, whyDue } from './due-item.js';
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
  const { animal, standing, today } = context;
  return blockTimeline(animal, today).on.flatMap((span): DueDraft[] => {
    if (isVets(context, 'block off', span.from)) return [];
    const { foot, claw, from, looks, fitted } = span;
    const seen =
      looks.length > 0 ||
      animal.visits.some(
        (visit, at) =>
          at > span.visit && visit.date <= today && visit.date > from && footSeen(animal, visit, foot),
      );
    const job = { who: 'trimmer', basis: 'default', foot, claw } as const;
    const why = (key: string) => whyDue(key, { day: from, days: span.days.atLeast });
    const off: DueDraft = {
      ...job,
      what: 'block-off',
      ...dueAfter(context, from, 'block-off', 'block-off-overdue'),
      why: why(fitted ? 'block-off' : 'block-off-already-on'),
      ...offAtOnce(context, 'block', span),
    };
    if (seen || standing.closed || off.basis === 'record') return [off];
    const days = dueAfter(context, from, 'block-look', 'block-look-overdue');
    return [{ ...job, what: 'block-look', ...days, why: why('block-look') }, off];
  });
}

/**
 * Wraps that are on: off, by the farm, unless the farm was asked to take it off by a day of its own, or the vet does
 * it. Of a closed case no task of the farm's is listed, so there the wrap itself always is.
 *
 * Checked: tests/schedule/due-items.test.ts, tests/schedule/fixtures-due.test.ts
 */
export function wrapDue(context: DueContext): DueDraft[] {
  const { animal, standing, today } = context;
  const askedOff = (fittedAt: number) =>
    !standing.closed &&
    animal.visits
      .slice(fittedAt)
      .some((visit) => visit['ask-farm']?.some(({ what }) => what === 'wrap off') && visit.date <= today);
  return wrapTimeline(animal, today)
    .filter(({ end, visit, from }) => !end && !askedOff(visit) && !isVets(context, 'wrap off', from))
    .map((span) => ({
      what: 'wrap-off',
      ...dueAfter(context, span.from, 'wrap-off', 'wrap-off-overdue'),
      who: 'farm',
      basis: 'default',
      why: whyDue('wrap-off', { day: span.from, foot: span.foot }),
      foot: span.foot,
      ...offAtOnce(context, 'wrap', span),
    }));
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
  const seen = swollen?.seen ?? (worse ? now.date : undefined);
  if (seen === undefined) return {};
  const why = whyDue(`${kind}-off-at-once-${swollen ? 'swollen' : 'worse'}`, { day: from, seen, foot });
  return { ...dueBy(seen), basis: 'record', why };
}
