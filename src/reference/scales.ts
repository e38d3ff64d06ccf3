import { z } from 'zod';
import { conditionScales, gaitScales, type ConditionScale, type GaitScale } from '../record/words.js';
import { readShared } from './read-shared.js';
import { address, type SourcedNumber } from './sourced.js';

const gaitScaleFacts = z.strictObject({
  /** Full name, as its publishers call it. */
  name: z.string(),
  lowest: z.int(),
  highest: z.int(),
  /** Scores go up by this much. */
  step: z.number(),
  /** A cow at or above this mark is lame. */
  lameFrom: z.int(),
  severeFrom: z.int(),
  /** The scale's own word: a mobility, locomotion or lameness score. */
  word: z.enum(['mobility', 'locomotion', 'lameness']),
  address,
});
export type GaitScaleFacts = z.infer<typeof gaitScaleFacts>;

const conditionScaleFacts = z.strictObject({ lowest: z.int(), highest: z.int(), address });
export type ConditionScaleFacts = z.infer<typeof conditionScaleFacts>;

const shared = readShared(
  'scales.json',
  z.strictObject({
    gait: z.record(z.enum(gaitScales), gaitScaleFacts),
    condition: z.record(z.enum(conditionScales), conditionScaleFacts),
  }),
);

/**
 * The gait scales, each on its own: never converted, never averaged across.
 *
 * Source:  shared/scales.json
 * Checked: tests/reference/scales.test.ts
 * @example gaitScale['sprecher-1-5'].lameFrom // → 3
 */
export const gaitScale: Readonly<Record<GaitScale, GaitScaleFacts>> = shared.gait;

/**
 * What a score says of her walk; the one place where the two words are distinguished. `sound` is the soundest score of the
 * scale and no other; `not-lame` is any score above it that is below the lame mark.
 *
 * Checked: tests/reference/scales.test.ts
 * @example walkOf('uk-0-3', 1) // → 'not-lame'
 */
export function walkOf(scale: GaitScale, score: number): 'sound' | 'not-lame' | 'lame' {
  const { lowest, lameFrom } = gaitScale[scale];
  if (score >= lameFrom) return 'lame';
  return score <= lowest ? 'sound' : 'not-lame';
}

/** The scores from which a cow is lame, and severely so, on each gait scale, as numbers with an address. @example lameMarks['nz-0-3'].lameFrom.unit // → 'lameness score' */
export const lameMarks = Object.fromEntries(
  Object.entries(shared.gait).map(([scale, { lameFrom, severeFrom, word, address: from }]) => {
    const mark = (value: number): SourcedNumber => ({ value, unit: `${word} score`, address: from });
    return [scale, { lameFrom: mark(lameFrom), severeFrom: mark(severeFrom) }];
  }),
) as Readonly<Record<GaitScale, { readonly lameFrom: SourcedNumber; readonly severeFrom: SourcedNumber }>>;

/** The body condition scales, each on its own. @example conditionScale['nz-1-10'].highest // → 10 */
export const conditionScale: Readonly<Record<ConditionScale, ConditionScaleFacts>> = shared.condition;
