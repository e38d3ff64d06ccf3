import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm, GaitRound } from '../record/farm.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import type { GaitScale } from '../record/words.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import { gaitScale } from '../reference/scales.js';
import type { Estimate } from '../statistics/estimate.js';
import { wilsonShare } from '../statistics/wilson-share.js';

/**
 * How many of the cows scored at a whole-herd round were lame, both numbers always together.
 *
 * The denominator is the cows scored, never the herd: cows that did not walk past were not seen. Where `scored` is
 * not written, it is the sum of the counts.
 *
 * Shape:   one round and the scale it was scored on → lame, scored, share (0-1; undefined when nobody was scored)
 * Source:  lame marks in shared/scales.json
 * Checked: tests/herd/lame-at-round.test.ts
 * @example lameAtRound({ date: '2026-01-20', scored: 205, counts: { 0: 130, 1: 51, 2: 20, 3: 4 } }, 'uk-0-3').lame // → 24
 */
export function lameAtRound(
  round: GaitRound,
  scale: GaitScale,
): { readonly lame: number; readonly scored: number; readonly share: number | undefined } {
  const counts = Object.entries(round.counts);
  const sum = (from: number) =>
    counts.reduce((total, [score, cows]) => (Number(score) >= from ? total + cows : total), 0);
  const lame = sum(gaitScale[scale].lameFrom);
  const scored = round.scored ?? sum(Number.NEGATIVE_INFINITY);
  return { lame, scored, share: scored === 0 ? undefined : lame / scored };
}

/** One whole-herd round with what chance leaves open. */
export interface RoundShare {
  readonly date: CalendarDay;
  readonly scale: GaitScale;
  readonly lame: number;
  readonly scored: number;
  /** Wilson's 95 % range; absent when nobody was scored, or more were lame than scored. */
  readonly share?: Estimate;
}

/**
 * The share lame at each whole-herd round, in the order of their days.
 *
 * The range says what chance alone could do in as many cows. How differently two people score comes on top.
 *
 * Checked: tests/herd/lame-at-round.test.ts
 */
export function lameAtRounds(farm: Farm, today: CalendarDay): RoundShare[] {
  return (farm['gait-rounds'] ?? [])
    .filter(({ date }) => date <= today)
    .toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
    .flatMap((round) => {
      const scale = gaitScaleOn(farm, round.date);
      if (!scale) return [];
      const { lame, scored } = lameAtRound(round, scale);
      const share = rangeOfShare(lame, scored);
      return [
        {
          date: round.date,
          scale,
          lame,
          scored,
          ...(share ? { share } : {}),
        },
      ];
    });
}

/**
 * The share lame with its 95 % range by Wilson; undefined when nobody was scored, or more were lame than scored.
 * @example rangeOfShare(24, 205)?.value // → 0.11707317073170732
 */
export function rangeOfShare(lame: number, scored: number): Estimate | undefined {
  if (scored <= 0 || lame > scored) return undefined;
  return wilsonShare(lame, scored, { level: herdNumbers.figures.level.value });
}
