import type { Animal } from '../record/animal.js';
import { daysBetween, type CalendarDay, latestDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { fixedIntervals } from '../reference/intervals.js';
import { gaitScale } from '../reference/scales.js';
import { blockTimeline, type BlockTimeline } from './block-timeline.js';
import type { FollowedEpisode } from './episode.js';
import { otherFootUnseen } from './foot-seen.js';
import type { GaitScore, GaitStanding } from './standing.js';
import type { Visit } from '../record/visit.js';
import type { FixtureSpan } from './fixture-span.js';
import { given } from '../record/given.js';

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
export function gaitStanding(
  animal: Animal,
  farm: Farm,
  episode: FollowedEpisode,
  today: CalendarDay,
): GaitStanding {
  const blocks = blockTimeline(animal, today);
  const scores = episode.visits.flatMap((visit) => scoreAt(animal, farm, blocks, visit));
  const last = scores.at(-1);
  const lastOffBlock = scores.findLast(({ block }) => block === 'off');
  const lastOnBlock = scores.findLast(({ block }) => block === 'on');
  const daysOffBlock = last?.block === 'off' ? daysSinceBlock(blocks, last.date) : undefined;
  const otherFoot = last?.lame ? otherFootUnseen(animal, today) : undefined;
  return {
    standing: word(last, lastOffBlock, blocks, daysOffBlock),
    ...given({ last, lastOffBlock, lastOnBlock }),
    scores,
    blockNow: blocks.on.length > 0 ? 'on' : 'off',
    ...given({ daysOffBlock, otherFoot }),
  };
}

function scoreAt(animal: Animal, farm: Farm, blocks: BlockTimeline, at: number): GaitScore[] {
  const visit = animal.visits[at];
  const scale = visit && gaitScaleOn(farm, visit.date);
  if (!visit || visit.gait === undefined || !scale) return [];
  const { lameFrom, severeFrom } = gaitScale[scale];
  const { date, gait: score } = visit;
  const block = blockAtWalk(visit, blocks.spans);
  return [{ date, visit: at, score, scale, block, lame: score >= lameFrom, severe: score >= severeFrom }];
}

/** Days from the last block's end to a day; undefined where no block ended by then. */
function daysSinceBlock(blocks: BlockTimeline, day: CalendarDay): number | undefined {
  const last = latestDay(blocks.spans.flatMap(({ end }) => (end && end.by <= day ? end.by : [])));
  return last === undefined ? undefined : daysBetween(last, day);
}

function word(
  last: GaitScore | undefined,
  lastOffBlock: GaitScore | undefined,
  blocks: BlockTimeline,
  daysOffBlock: number | undefined,
): GaitStanding['standing'] {
  if (!last) return 'not-scored';
  if (last.lame) return last.block === 'unclear' ? 'lame-block-unclear' : `lame-${last.block}-block`;
  if (last.block === 'on') {
    const wasLame =
      lastOffBlock?.lame && lastOffBlock.scale === last.scale && lastOffBlock.score > last.score;
    return wasLame ? 'easier-on-block' : 'not-lame-not-proved';
  }
  const onSince = blocks.spans.some(({ from, end }) => !end || from >= last.date || end.by > last.date);
  const longEnough = daysOffBlock === undefined || daysOffBlock >= fixedIntervals['off-block-counts'].value;
  return last.block === 'off' && longEnough && !onSince ? 'sound' : 'not-lame-not-proved';
}

/**
 * Whether she walked on a block when she was scored at a visit.
 *
 * The visit's own word wins. Else the block events tell: she is scored walking in, so a block fitted that day was
 * not on yet and one taken off that day still was. A block lost that day, a loss on an unknown day before it,
 * and a report of a day on which a block was fitted leave it unclear.
 *
 * Checked: tests/healing/gait-standing.test.ts
 */
function blockAtWalk(visit: Visit, spans: readonly FixtureSpan[]): 'on' | 'off' | 'unclear' {
  if (visit['on-block'] !== undefined) return visit['on-block'] ? 'on' : 'off';
  const told = spans.map((span) => blockOn(span, visit.date, visit.kind === 'report'));
  return told.includes('on') ? 'on' : told.includes('unclear') ? 'unclear' : 'off';
}

function blockOn(span: FixtureSpan, day: CalendarDay, isReport: boolean): 'on' | 'off' | 'unclear' {
  const { from, fitted, end, lastKnownOn } = span;
  if (day < from) return fitted ? 'off' : 'unclear';
  if (day === from && fitted) return isReport ? 'unclear' : 'off';
  if (!end) return 'on';
  if (day > end.by) return 'off';
  if (end.how === 'lost') return day <= lastKnownOn && day < end.by ? 'on' : 'unclear';
  return day === end.by && isReport ? 'unclear' : 'on';
}
