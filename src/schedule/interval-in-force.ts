import type { Business } from '../record/business.js';
import type { Farm } from '../record/farm.js';
import type { IntervalName } from '../record/words.js';
import { defaultIntervals } from '../reference/intervals.js';

/** Days, by name, with the farm's own word before the business's, and the default last. */
export type IntervalsInForce = (name: IntervalName) => number;

/** @example intervalsInForce({ farm: 'Quernholt', intervals: { 'block-off': 35 } }, {})('block-off') // → 35 */
export function intervalsInForce(farm: Farm, business: Business): IntervalsInForce {
  return (name) => farm.intervals?.[name] ?? business.intervals?.[name] ?? defaultIntervals[name].value;
}
