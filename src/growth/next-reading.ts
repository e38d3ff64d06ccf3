import type { CalendarDay } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { ExpectedPoint, NextReading } from './animal-growth.js';
import { isMeasured } from './growth-line.js';
import type { LineFollowed } from './held-slowly.js';
import { toolError } from '../reference/reading-error.js';
import { type WayDown, daysOn } from './when-out.js';

/**
 * Where the top should stand on a later day, its SD without reading error.
 *
 * Unit:    mm
 * Valid:   undefined before the last used reading
 */
export function expectedOn(way: WayDown, date: CalendarDay): ExpectedPoint | undefined {
  const days = daysOn(way, date);
  if (days < 0) return undefined;
  const { mean, variance } = way.topAfter(days);
  return { date, meanMm: mean, sdMm: Math.sqrt(variance) };
}

/**
 * What a reading on a later day should show: mean and SD with the error of the tool last used, the 80 %
 * range, and the mark below which the top is higher than growth lets it be.
 *
 * Unit:    mm; range and mark not below 0, where a mark of 0 says that no reading can be that low
 * Source:  shared/growth.json `forecast.rangeSds`, `tests.doubtfulBelow`
 * Checked: tests/growth/next-reading.test.ts
 */
export function nextReading(way: WayDown, line: LineFollowed, date: CalendarDay): NextReading | undefined {
  const point = expectedOn(way, date);
  if (point === undefined) return undefined;
  const tool = line.judged.findLast(({ reading }) => isMeasured(reading))?.reading.tool;
  const { meanMm } = point;
  const sdMm = Math.hypot(point.sdMm, toolError(tool, meanMm));
  const half = growthNumbers.forecast.rangeSds.value * sdMm;
  return {
    date,
    meanMm,
    sdMm,
    lowMm: Math.max(0, meanMm - half),
    highMm: meanMm + half,
    alarmMm: Math.max(0, meanMm + growthNumbers.tests.doubtfulBelow.value * sdMm),
  };
}
