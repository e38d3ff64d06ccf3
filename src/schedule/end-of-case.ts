import { blockTimeline } from '../healing/block-timeline.js';
import { type FollowedEpisode, episodesOf } from '../healing/episode.js';
import { type FixtureSpan, wrapTimeline } from '../healing/fixture-span.js';
import { gaitStanding } from '../healing/gait-standing.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { goneResults, leftFarm } from '../record/visit.js';
import type { EpisodeResult } from '../record/words.js';
import { fixedDays } from '../reference/intervals.js';
import { gaitScale } from '../reference/scales.js';
import { type MissingEntry, missingEntry } from './missing-on-farm.js';
import { type Left, leftOn, withheldOf, type WithheldOfAnimal } from './withheld.js';

/**
 * What the end of a case leaves open: a block or wrap still on as far as is recorded, and a result `sound` that no
 * score shows, of every episode.
 *
 * Checked: tests/schedule/missing-in-case.test.ts, tests/cli/close.test.ts
 */
export function missingAtClosing(animal: Animal, farm: Farm, today: CalendarDay): MissingEntry[] {
  const episodes = episodesOf(animal, today);
  const last = episodes.at(-1);
  const fixtures = last?.ended === undefined ? [] : stillOnAtClose(animal, last.result, today);
  return [
    ...fixtures.map(({ kind, left, foot, claw, from, visit, at }) => {
      const values = { foot, claw, day: from, which: left ? 'left' : undefined };
      return missingEntry(
        `gap/closed-with-${kind}-on`,
        ['visits', visit, `${kind}s`, at],
        last?.ended,
        values,
      );
    }),
    ...episodes.flatMap((episode) => {
      const { written, ended, result } = episode;
      if (written === undefined || ended === undefined || result !== 'sound') return [];
      const missing = soundNotShown(animal, farm, episode, ended);
      if (!missing) return [];
      const needed = fixedDays('off-block-counts');
      const values = { ...missing.values, which: missing.why, since: ended, needed };
      return missingEntry('gap/sound-not-shown', ['episodes', written, 'result'], ended, values);
    }),
  ];
}

/** A block or a wrap that no record takes off; `left`: she is no longer on the farm, and whoever keeps her has to be informed. */
interface StillOn extends FixtureSpan {
  readonly kind: 'block' | 'wrap';
  readonly left: boolean;
}

/**
 * Blocks and wraps still on, as far as is recorded, when a case is closed. Of a cow that died or was put down nobody
 * asks.
 *
 * Checked: tests/schedule/end-of-case.test.ts
 */
export function stillOnAtClose(
  animal: Animal,
  result: EpisodeResult | undefined,
  today: CalendarDay,
): StillOn[] {
  if (isDead(result)) return [];
  const left = result !== undefined && leftFarm.has(result);
  return [
    ...blockTimeline(animal, today).on.map((span) => ({ ...span, kind: 'block' as const, left })),
    ...wrapTimeline(animal, today)
      .filter(({ end }) => !end)
      .map((span) => ({ ...span, kind: 'wrap' as const, left })),
  ];
}

function isDead(result: EpisodeResult | undefined): boolean {
  return result === 'died' || result === 'put down';
}

/** Why `sound` is not shown, with the day and number that say so. */
interface NotShown {
  readonly why: 'not-scored' | 'not-soundest' | 'on-block' | 'too-soon' | 'block-since';
  readonly values: Readonly<Record<string, string | number>>;
}

/**
 * What an episode that ended `sound` has not shown: that at its last score she walked off the block, at least 7 days
 * after it came off, with the soundest score of the farm's scale.
 *
 * Shape:   an episode with its visits and its end → undefined where all is shown
 * Checked: tests/schedule/end-of-case.test.ts
 */
export function soundNotShown(
  animal: Animal,
  farm: Farm,
  episode: Pick<FollowedEpisode, 'visits'>,
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

/** She left the farm while milk or meat was withheld, or may have been. */
export interface LeftUnderWithdrawal extends WithheldOfAnimal, Left {
  /** Into food, or to a keeper who was not informed: serious. Dead: a note, and not for food. */
  readonly grade: 'serious' | 'told' | 'note';
}

/** Whether she last left under withdrawal. Of one culled or dead only meat counts, since nobody milks her. */
export function leftUnderWithdrawal(
  animal: Animal,
  farm: Farm,
  today: CalendarDay,
): LeftUnderWithdrawal | undefined {
  const left = leftOn(animal, today);
  if (!left) return undefined;
  const isGone = goneResults.has(left.result);
  const withheld = withheldOf(animal, farm, today, left.on);
  const [milk, meat] = [isGone ? { outcome: 'nothing' as const } : withheld.milk, withheld.meat];
  if (milk.outcome === 'nothing' && meat.outcome === 'nothing') return undefined;
  const isTold = left.told !== undefined && !isGone;
  return { ...left, milk, meat, grade: isDead(left.result) ? 'note' : isTold ? 'told' : 'serious' };
}
