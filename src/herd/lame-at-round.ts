import type { GaitRound } from '../record/farm.js';
import type { GaitScale } from '../record/words.js';
import { gaitScale } from '../reference/scales.js';

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
