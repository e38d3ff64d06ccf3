import { blockTimeline } from '../../healing/block-timeline.js';
import { addDays, daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import type { Foot } from '../../record/words.js';
import { noticeLimit } from '../../reference/notices.js';
import type { NoticeContext } from './notice-rule.js';

/** A foot that has been longer on blocks than it should, refits added up. */
export interface LongOnBlocks {
  readonly foot: Foot;
  /** The day the sum passed the limit. */
  readonly raised: CalendarDay;
  readonly days: number;
  readonly stillOn: boolean;
}

/**
 * Feet with more than 84 days on blocks in all, in the open episode.
 *
 * Why this way: one foot's claws are added up, since tendons and heel strain with the foot; the fewest days that
 * can have been are counted, so that an unknown day never raises it.
 */
export function longOnBlocks(
  { animal, standing }: NoticeContext,
  today: CalendarDay,
): readonly LongOnBlocks[] {
  const limit = noticeLimit('long-on-blocks', 'days');
  const first = animal.visits[standing.episode.visits[0] ?? 0]?.date ?? today;
  const now = blockTimeline(animal, today);
  const sumOn = (foot: Foot, day: CalendarDay) => daysSince(animal, foot, first, day);
  return now.daysByFoot.flatMap(({ foot, atLeast }): LongOnBlocks[] => {
    if (atLeast <= limit) return [];
    const days = sumOn(foot, today);
    if (days <= limit) return [];
    let early = 0;
    let late = daysBetween(first, today);
    while (early < late) {
      const middle = Math.floor((early + late) / 2);
      if (sumOn(foot, addDays(first, middle)) > limit) late = middle;
      else early = middle + 1;
    }
    return [{ foot, days, raised: addDays(first, late), stillOn: now.on.some((span) => span.foot === foot) }];
  });
}

function daysSince(
  animal: NoticeContext['animal'],
  foot: Foot,
  first: CalendarDay,
  day: CalendarDay,
): number {
  const all = (until: CalendarDay) =>
    blockTimeline(animal, until).daysByFoot.find((sum) => sum.foot === foot)?.atLeast ?? 0;
  return all(day) - all(first);
}
