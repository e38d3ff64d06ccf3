import { growthNumbers } from '../reference/growth-numbers.js';
import type { ReadingKind } from './animal-growth.js';
import type { GrowthLine, Measured } from './growth-line.js';

/** What a reading is judged by. */
export interface Evidence {
  readonly of: GrowthLine['of'];
  readonly reading: Measured;
  /** How far off what growth alone would have brought, in SDs. */
  readonly z: number;
  /** Further up than the reading before it, beyond what two readings can tell. */
  readonly above: boolean;
  /** The reading before it is pending: doubtful, and asked for again. Then, whether that one was above its own. */
  readonly pending?: { readonly above: boolean };
  /** The reading before it was the line's first, under loose horn that is off now. */
  readonly firstUnderLooseHorn: boolean;
}

/** What is then done: take it as growth, start anew at it, start anew at the pending one and take it, or wait. */
export type Taking = 'update' | 'restart' | 'restart-at-pending' | 'wait';

const { doubtfulBelow, standsBelow, lowerAbove, tellApart } = growthNumbers.tests;

/**
 * Says what kind of reading this is: the first test that it meets, in this order.
 *
 * Checked: tests/growth/judge-reading.test.ts, one case for each row
 */
export function judgeReading(evidence: Evidence): { readonly kind: ReadingKind; readonly taking: Taking } {
  const { of, reading, z, above, pending, firstUnderLooseHorn } = evidence;
  if (reading.saidOpenedFurther || (firstUnderLooseHorn && above))
    return { kind: 'opened-further', taking: 'restart' };
  if (reading.saidRanUp) return { kind: 'ran-up', taking: 'restart' };
  if (reading.mm === 0 && of !== 'ulcer') return { kind: 'at-coronet', taking: 'restart' };
  if (of === 'mark' && (z < doubtfulBelow.value || z > lowerAbove.value)) {
    return { kind: 'does-not-fit', taking: 'restart' };
  }
  if (z < standsBelow.value) return { kind: above ? 'ran-up' : 'held', taking: 'restart' };
  if (z < doubtfulBelow.value && pending !== undefined) {
    return { kind: above || pending.above ? 'ran-up' : 'held', taking: 'restart-at-pending' };
  }
  if (z < doubtfulBelow.value) return { kind: 'doubtful', taking: 'wait' };
  if (z > lowerAbove.value) return { kind: 'lower-than-growth', taking: 'restart' };
  return { kind: 'grew', taking: 'update' };
}

/** Whether a reading lies further up than the one before it, by more than two readings can be off. */
export function isAbove(reading: Measured, before: Measured): boolean {
  return reading.mm < before.mm - tellApart.value * Math.hypot(reading.sigmaMm, before.sigmaMm);
}
