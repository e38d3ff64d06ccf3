import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { leftFarm } from '../record/gone-results.js';
import type { EpisodeResult } from '../record/words.js';
import { fixedDays } from '../reference/intervals.js';
import { gaitScale } from '../reference/scales.js';
import { blockTimeline } from './block-timeline.js';
import type { Episode } from './episode.js';
import type { FixtureSpan } from './fixture-span.js';
import { gaitStanding } from './gait-standing.js';
import { wrapTimeline } from './wrap-timeline.js';

/** A block or a wrap that no record takes off. */
export interface StillOn extends Pick<FixtureSpan, 'foot' | 'claw' | 'from' | 'visit' | 'at'> {
  readonly kind: 'block' | 'wrap';
  /** She is no longer on the farm: whoever keeps her has to be told. */
  readonly left: boolean;
}

/** Why `sound` is not shown, with the day and number that say so. */
export interface NotShown {
  readonly why: 'not-scored' | 'not-soundest' | 'on-block' | 'too-soon' | 'block-since';
  readonly values: Readonly<Record<string, string | number>>;
}

/**
 * Blocks and wraps still on, as far as is recorded, when a case is closed. Of a cow that died or was put down nobody
 * asks.
 *
 * Checked: tests/healing/missing-at-close.test.ts
 */
export function stillOnAtClose(
  animal: Animal,
  result: EpisodeResult | undefined,
  today: CalendarDay,
): StillOn[] {
  if (result === 'died' || result === 'put down') return [];
  const left = result !== undefined && leftFarm.has(result);
  const on = (kind: StillOn['kind'], spans: readonly FixtureSpan[]) =>
    spans
      .filter(({ end }) => !end)
      .map(({ foot, claw, from, visit, at }): StillOn => ({
        kind,
        left,
        foot,
        from,
        visit,
        at,
        ...(claw ? { claw } : {}),
      }));
  return [...on('block', blockTimeline(animal, today).on), ...on('wrap', wrapTimeline(animal, today))];
}

/**
 * What an episode that ended `sound` has not shown: that at its last score she walked off the block, at least 7 days
 * after it came off, with the soundest score of the farm's scale.
 *
 * Shape:   an episode with its visits and its end → undefined where all is shown
 * Checked: tests/healing/missing-at-close.test.ts
 */
export function soundNotShown(
  animal: Animal,
  farm: Farm,
  episode: Pick<Episode, 'visits'>,
  ended: CalendarDay,
): NotShown | undefined {
  const visits = episode.visits.filter((at) => animal.visits[at]!.date <= ended);
  const { last, daysOffBlock } = gaitStanding(animal, farm, { visits }, ended);
  if (!last) return { why: 'not-scored', values: {} };
  const values = { day: last.date, score: last.score };
  const { lowest } = gaitScale[last.scale];
  if (last.score > lowest) return { why: 'not-soundest', values: { ...values, soundest: lowest } };
  if (last.block !== 'off') return { why: 'on-block', values };
  if (daysOffBlock !== undefined && daysOffBlock < fixedDays('off-block-counts'))
    return { why: 'too-soon', values: { ...values, days: daysOffBlock } };
  const since = blockTimeline(animal, ended).spans.some(({ from }) => from >= last.date);
  return since ? { why: 'block-since', values } : undefined;
}
