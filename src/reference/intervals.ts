import { z } from 'zod';
import { intervalNames, type IntervalName } from '../record/words.js';
import { readShared } from './read-shared.js';
import { sourcedNumber, type SourcedNumber } from './sourced.js';

const fixedNames = [
  'measure-again',
  'foul-look',
  'foul-look-again',
  'calving-before',
  'calving-after',
  'close-to-calving',
  'heifer-may-calve',
  'off-block-counts',
  'dermatitis-look',
  'written-grace',
  'withdrawal-unknown-shown',
  'dry-before-calving',
  'gestation',
  'travel-after-calving',
  'pain-relief-acts',
  'written-late',
  'two-lifts-apart',
  'ring-again',
  'ring-again-notice',
] as const;
export type FixedIntervalName = (typeof fixedNames)[number];

const shared = readShared(
  'intervals.json',
  z.strictObject({
    defaults: z.record(z.enum(intervalNames), sourcedNumber),
    fixed: z.record(z.enum(fixedNames), sourcedNumber),
  }),
);

/** Days until something is due, by name; a business or a farm may set each of them. Source: shared/intervals.json. */
export const defaultIntervals: Readonly<Record<IntervalName, SourcedNumber>> = shared.defaults;

/** Days that nobody sets: they belong to what a score or a reading can tell, or to the law. */
export const fixedIntervals: Readonly<Record<FixedIntervalName, SourcedNumber>> = shared.fixed;

/** @example fixedDays('off-block-counts') // → 7 */
export function fixedDays(name: FixedIntervalName): number {
  return shared.fixed[name].value;
}
