import { toolError, growthNumbers } from '../../reference/growth-numbers.js';
import { type WayDown, daysOn } from '../../growth/when-out.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Tool } from '../../record/words.js';
import type { NextWidth } from './ulcer-closing.js';

/**
 * What the width of an ulcer should be on a later day, with the error of the tool last used.
 *
 * Unit:    mm, not below 0
 * Valid:   undefined before the last used width
 * Source:  shared/growth.json `forecast.rangeSds`, `tests.doubtfulBelow`
 * Checked: tests/healing/closing/closing-of-ulcer.test.ts
 */
export function nextWidth(way: WayDown, tool: Tool | undefined, date: CalendarDay): NextWidth | undefined {
  const days = daysOn(way, date);
  if (days < 0) return undefined;
  const { mean, variance } = way.topAfter(days);
  const widthMm = Math.max(0, -2 * mean);
  const sdMm = Math.hypot(2 * Math.sqrt(variance), toolError(tool, widthMm));
  const within = (sds: number) => Math.max(0, -2 * mean + sds * sdMm);
  const half = growthNumbers.forecast.rangeSds.value;
  return {
    date,
    meanMm: widthMm,
    lowMm: within(-half),
    highMm: within(half),
    alarmMm: within(-growthNumbers.tests.doubtfulBelow.value),
  };
}
