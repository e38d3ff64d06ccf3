import { blockTimeline } from '../../healing/block-timeline.js';
import { soreFeet } from '../../healing/sore-feet.js';
import type { GaitScore } from '../../healing/standing.js';
import { daysBetween } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Visit } from '../../record/visit.js';
import { noticeLimit } from '../../reference/notices.js';
import type { NoticeCheck, NoticeContext, VisitLook } from './notice-rule.js';

/** The severest score, with the block on or off. */
export const severestScore: NoticeCheck = (_, { score }) =>
  score
    ? [{ rule: 'severest-score', holds: score.severe, values: { score: score.score }, variant: score.block }]
    : [];

/**
 * A higher score within 7 days of trimming, cutting back or putting on a block.
 *
 * Scores on and off the block are set against each other here and only here: a cow that walks worse in spite of a
 * block is worse, and a needless call costs less than a missed one.
 */
export const worseAfterWork: NoticeCheck = (context, { at, visit, score }) => {
  if (!score) return [];
  const within = noticeLimit('worse-after-work', 'within');
  const work = context.standing.episode.visits
    .filter((other) => other < at)
    .map((other) => ({ other, worked: context.animal.visits[other] }))
    .findLast(({ worked }) => worked && didWork(worked) && daysBetween(worked.date, visit.date) <= within);
  const before = work && context.standing.gait.scores.findLast((earlier) => earlier.visit <= work.other);
  const worse = before !== undefined && before.scale === score.scale && score.score > before.score;
  const values = { score: score.score, before: before?.score ?? '', day: work?.worked?.date ?? '' };
  return [{ rule: 'worse-after-work', holds: worse, values }];
};

function didWork(visit: Visit): boolean {
  return (
    (visit.trimmed?.length ?? 0) > 0 ||
    (visit['cut-back']?.length ?? 0) > 0 ||
    (visit.blocks ?? []).some(({ event }) => event === 'fitted' || event === 'replaced')
  );
}

/** Lame at a lifted visit, with no lesion that is not healed and no sign on any foot. */
export const lameNothingFound: NoticeCheck = ({ animal }, { visit, score, signs }) => {
  if (!score || !isLiftingVisit(visit)) return [];
  const nothing =
    soreFeet(animal, visit.date).length === 0 &&
    Object.values(visit.found ?? {}).every(
      ({ state, stage, lifted }) => lifted === false || state === 'healed' || (!state && stage === 'M0'),
    ) &&
    signs.every(({ foot }) => foot === undefined);
  return [{ rule: 'lame-nothing-found', holds: score.lame && nothing, values: { score: score.score } }];
};

/** Lame off the block at two scorings at least 14 days apart, with no better score off the block between them. */
export const lameOffBlock: NoticeCheck = (context, look) => {
  const { score } = look;
  if (score?.block !== 'off') return [];
  const first = firstOfLameRun(context, look, score);
  const apart = first ? daysBetween(first.date, score.date) : 0;
  const holds = score.lame && apart >= noticeLimit('lame-off-block', 'apart');
  const hadBlock = holds && blockTimeline(context.animal, score.date).spans.length > 0;
  const variant = hadBlock ? 'off-block' : 'no-block';
  return [{ rule: 'lame-off-block', holds, variant, values: { since: first?.date ?? '', day: score.date } }];
};

function firstOfLameRun(context: NoticeContext, { at }: VisitLook, score: GaitScore): GaitScore | undefined {
  const off = context.standing.gait.scores.filter(
    ({ visit, block, scale }) => visit <= at && block === 'off' && scale === score.scale,
  );
  return off[off.findLastIndex(({ lame }) => !lame) + 1];
}
