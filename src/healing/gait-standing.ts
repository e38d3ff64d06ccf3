import type { Animal } from '../record/animal.js';
import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { fixedIntervals } from '../reference/intervals.js';
import { gaitScale } from '../reference/scales.js';
import { blockAtWalk } from './block-at-walk.js';
import { blockTimeline, type BlockTimeline } from './block-timeline.js';
import type { Episode } from './episode.js';
import { otherFootUnseen } from './other-foot.js';
import type { GaitScore, GaitStanding } from './standing.js';

/**
 * How she walks on a day, by the scores of one episode.
 *
 * Why this way: a block makes a lame cow walk better at once, so a score on it says nothing of the foot. `sound`
 * needs a score below the lame mark, off the block, at least 7 days after the last block came off, and no block
 * put on since; a loss on an unknown day counts from the day it was found. `easier-on-block` needs a lame score
 * off the block before it on the same scale.
 *
 * Checked: tests/healing/gait-standing.test.ts
 */
export function gaitStanding(animal: Animal, farm: Farm, episode: Episode, today: CalendarDay): GaitStanding {
  const blocks = blockTimeline(animal, today);
  const scores = episode.visits.flatMap((visit) => scoreAt(animal, farm, blocks, visit));
  const last = scores.at(-1);
  const lastOffBlock = scores.findLast(({ block }) => block === 'off');
  const lastOnBlock = scores.findLast(({ block }) => block === 'on');
  const daysOffBlock = last?.block === 'off' ? daysSinceBlock(blocks, last.date) : undefined;
  const otherFoot = last?.lame ? otherFootUnseen(animal, today) : undefined;
  return {
    standing: word(last, lastOffBlock, blocks, daysOffBlock),
    ...(last ? { last } : {}),
    ...(lastOffBlock ? { lastOffBlock } : {}),
    ...(lastOnBlock ? { lastOnBlock } : {}),
    scores,
    blockNow: blocks.on.length > 0 ? 'on' : 'off',
    ...(daysOffBlock === undefined ? {} : { daysOffBlock }),
    ...(otherFoot ? { otherFoot } : {}),
  };
}

function scoreAt(animal: Animal, farm: Farm, blocks: BlockTimeline, at: number): GaitScore[] {
  const visit = animal.visits[at];
  const scale = visit && gaitScaleOn(farm, visit.date);
  if (!visit || visit.gait === undefined || !scale) return [];
  const { lameFrom, severeFrom } = gaitScale[scale];
  return [
    {
      date: visit.date,
      visit: at,
      score: visit.gait,
      scale,
      block: blockAtWalk(visit, blocks.spans),
      lame: visit.gait >= lameFrom,
      severe: visit.gait >= severeFrom,
    },
  ];
}

/** Days from the last block's end to a day; undefined where no block ended by then. */
function daysSinceBlock(blocks: BlockTimeline, day: CalendarDay): number | undefined {
  const ends = blocks.spans.flatMap(({ end }) => (end && end.by <= day ? [end.by] : [])).sort();
  const last = ends.at(-1);
  return last === undefined ? undefined : daysBetween(last, day);
}

function word(
  last: GaitScore | undefined,
  lastOffBlock: GaitScore | undefined,
  blocks: BlockTimeline,
  daysOffBlock: number | undefined,
): GaitStanding['standing'] {
  if (!last) return 'not-scored';
  if (last.lame)
    return last.block === 'on'
      ? 'lame-on-block'
      : last.block === 'off'
        ? 'lame-off-block'
        : 'lame-block-unclear';
  if (last.block === 'on') {
    const wasLame =
      lastOffBlock?.lame && lastOffBlock.scale === last.scale && lastOffBlock.score > last.score;
    return wasLame ? 'easier-on-block' : 'not-lame-not-proved';
  }
  const onSince = blocks.spans.some(({ from, end }) => !end || from >= last.date || end.by > last.date);
  const longEnough = daysOffBlock === undefined || daysOffBlock >= fixedIntervals['off-block-counts'].value;
  return last.block === 'off' && longEnough && !onSince ? 'sound' : 'not-lame-not-proved';
}
