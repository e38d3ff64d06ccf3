import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm, GaitRound } from '../record/farm.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import type { GaitScale } from '../record/words.js';
import { gaitScale } from '../reference/scales.js';
import type { Estimate } from '../statistics/estimate.js';
import { printedShare } from './printed-figure.js';

/**
 * How many of the cows scored at a whole-herd round were lame, both numbers always together.
 *
 * The denominator is the cows scored, never the herd: cows that did not walk past were not seen. Where `scored` is
 * not written, it is the sum of the counts.
 *
 * Shape:   one round and the scale it was scored on → lame and scored
 * Source:  lame marks in shared/scales.json
 * Checked: tests/herd/lame-at-round.test.ts
 * @example lameAtRound({ date: '2026-01-20', scored: 205, counts: { 0: 130, 1: 51, 2: 20, 3: 4 } }, 'uk-0-3').lame // → 24
 */
export function lameAtRound(
  round: GaitRound,
  scale: GaitScale,
): { readonly lame: number; readonly scored: number } {
  const counts = Object.entries(round.counts);
  const sum = (from: number) =>
    counts.reduce((total, [score, cows]) => (Number(score) >= from ? total + cows : total), 0);
  const lame = sum(gaitScale[scale].lameFrom);
  return { lame, scored: round.scored ?? sum(Number.NEGATIVE_INFINITY) };
}

/** One whole-herd round. */
export interface RoundShare {
  readonly date: CalendarDay;
  readonly scale: GaitScale;
  readonly lame: number;
  readonly scored: number;
  /** With Wilson's 95 % bounds; absent where too few were scored to print it. */
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
      const share = printedShare(lame, scored);
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
