import type intervals from '../../shared/intervals.json';
import type { IntervalName } from '../record/words.js';
import { readNumbers, type SourcedNumber } from './sourced.js';
import type { Business } from '../record/business.js';
import type { Farm } from '../record/farm.js';

type FixedIntervalName = keyof typeof intervals.fixed;

const shared = readNumbers<typeof intervals>('intervals.json');

/** Days until something is due, by name; a business or a farm may set each of them. Source: shared/intervals.json. */
export const defaultIntervals: Readonly<Record<IntervalName, SourcedNumber>> = shared.defaults;

/** Days that nobody sets: they belong to what a score or a reading can tell, or to the law. */
export const fixedIntervals: Readonly<Record<FixedIntervalName, SourcedNumber>> = shared.fixed;

/** @example fixedDays('off-block-counts') // → 7 */
export function fixedDays(name: FixedIntervalName): number {
  return shared.fixed[name].value;
}

/** Days, by name, with the farm's own word before the business's, and the default last. */
export type IntervalsInForce = (name: IntervalName) => number;

/** @example intervalsInForce({ farm: 'Quernholt', intervals: { 'block-off': 35 } }, {})('block-off') // → 35 */
export function intervalsInForce(farm: Farm, business: Business): IntervalsInForce {
  return (name) => farm.intervals?.[name] ?? business.intervals?.[name] ?? defaultIntervals[name].value;
}
