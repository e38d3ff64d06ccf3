import type { Intervals } from '../../record/farm.js';
import { intervalNames } from '../../record/words.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/** Nothing is overdue before it is due. */
export function checkIntervalsInOrder(intervals: Intervals = {}): Finding[] {
  return intervalNames.flatMap((name) => {
    const overdueName = intervalNames.find((other) => other === `${name}-overdue`);
    const due = intervals[name];
    const overdue = overdueName && intervals[overdueName];
    if (overdueName === undefined || due === undefined || overdue === undefined || overdue >= due) return [];
    return [
      refuse(
        'overdue-before-due',
        ['intervals', overdueName],
        `${overdueName} is ${overdue} days, expected at least ${name}, ${due} days`,
        'make the days until it is overdue the longer of the two',
      ),
    ];
  });
}
