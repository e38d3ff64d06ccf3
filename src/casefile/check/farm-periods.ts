import type { RecordPath } from '../../problem/problem.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/** Periods of a list follow one another by their `from`, so that each day has one herd and one scale. */
export function checkFarmPeriods({ herd, 'gait-scale': scale, footbath }: Farm): Finding[] {
  return [
    ...outOfOrder('herd', Array.isArray(herd) ? herd : []),
    ...outOfOrder('gait-scale', Array.isArray(scale) ? scale : []),
    ...(footbath ?? []).flatMap(({ from, to }, i) =>
      from && to && to < from
        ? [
            refuse(
              'footbath-ends-before',
              ['footbath', i, 'to'],
              `the footbath runs to ${to}, expected no day before its from, ${from}`,
              'correct `from` or `to`',
            ),
          ]
        : [],
    ),
  ];
}

function outOfOrder(
  key: 'herd' | 'gait-scale',
  periods: readonly { readonly from?: CalendarDay | undefined }[],
): Finding[] {
  return periods.flatMap(({ from }, i) => {
    if (i === 0) return [];
    const path: RecordPath = from === undefined ? [key, i] : [key, i, 'from'];
    if (from === undefined)
      return [
        refuse(
          `${key}-without-from`,
          path,
          `period ${i + 1} of ${key} has no from, expected the day it began: only the first may leave it out`,
          'write `from`',
        ),
      ];
    const before = periods[i - 1]?.from;
    if (before === undefined || from > before) return [];
    return [
      refuse(
        `${key}-out-of-order`,
        path,
        `${key} has a period from ${from} after the one from ${before}, expected oldest first, each day once`,
        'list the periods oldest first',
      ),
    ];
  });
}
