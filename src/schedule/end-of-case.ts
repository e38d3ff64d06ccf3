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
import type { MissingEntry } from './missing-on-farm.js';
import { type Left, leftOn, withheldOf, type WithheldOfAnimal } from './withheld.js';

const shared = { grade: 'serious', closable: 'by-asking' } as const;

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
    ...fixtures.map(({ kind, left, foot, claw, from, visit, at }): MissingEntry => ({
      ...shared,
      id: `gap/closed-with-${kind}-on`,
      path: ['visits', visit, `${kind}s`, at],
      values: { foot, ...(claw ? { claw } : {}), day: from, ...(left ? { which: 'left' } : {}) },
      ...(last?.ended === undefined ? {} : { since: last.ended }),
    })),
    ...episodes.flatMap((episode): MissingEntry[] => {
      const { written, ended, result } = episode;
      if (written === undefined || ended === undefined || result !== 'sound') return [];
      const missing = soundNotShown(animal, farm, episode, ended);
      if (!missing) return [];
      const needed = fixedDays('off-block-counts');
      const values = { ...missing.values, which: missing.why, since: ended, needed };
      const path = ['episodes', written, 'result'];
      return [{ ...shared, id: 'gap/sound-not-shown', path, values, since: ended }];
    }),
  ];
}

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
 * Checked: tests/schedule/end-of-case.test.ts
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
  /** Into food, or to a keeper who was not told: serious. Dead: a note, and not for food. */
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
  const { on, result, told } = left;
  const { milk, meat } = withheldOf(animal, farm, today, on);
  const counts = goneResults.has(result) ? [meat] : [milk, meat];
  if (counts.every(({ outcome }) => outcome === 'nothing')) return undefined;
  const isDead = result === 'died' || result === 'put down';
  const isTold = told !== undefined && !goneResults.has(result);
  return {
    ...left,
    milk: goneResults.has(result) ? { outcome: 'nothing' } : milk,
    meat,
    grade: isDead ? 'note' : isTold ? 'told' : 'serious',
  };
}
