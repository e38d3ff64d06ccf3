import type { CalendarDay } from './calendar-day.js';
import type { Farm } from './farm.js';
import type { GaitScale } from './words.js';

/**
 * The gait scale a farm uses on a day; undefined where none is declared for it.
 *
 * Of a list, the last period begun by that day holds; one without `from` holds from the start.
 *
 * Checked: tests/record/gait-scale-on.test.ts
 */
export function gaitScaleOn(farm: Farm, day: CalendarDay): GaitScale | undefined {
  const declared = farm['gait-scale'];
  if (typeof declared !== 'object') return declared;
  return declared.findLast(({ from }) => from === undefined || from <= day)?.scale;
}
