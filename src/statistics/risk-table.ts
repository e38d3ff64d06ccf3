import { type Interval, interval } from './interval.js';

/** One moment at which something happened: how many were waiting just before it, and to how many it happened. */
export interface RiskRow {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
}

/**
 * Who was still waiting at each event, for times that are exact or cut off.
 *
 * The endpoint rule bites here: one last looked at on the day of another's event was still waiting that day, so he
 * counts among those at risk. Events come before last looks of the same time.
 *
 * Valid:   exact times (`after` = `by`) and those cut off (`by` Infinity)
 * Error:   RangeError for an interval in between: it has no one moment, use intervalCensoredSurvival
 * Checked: tests/statistics/kaplan-meier.test.ts
 * @example riskTable([{ after: 3, by: 3 }, { after: 3, by: Infinity }]) // → [{ time: 3, atRisk: 2, events: 1 }]
 */
export function riskTable(intervals: readonly Interval[]): RiskRow[] {
  const eventsAt = new Map<number, number>();
  const times = intervals.map(({ after, by }) => {
    interval(after, by);
    if (by !== after && by !== Infinity) {
      throw new RangeError(`(${after}, ${by}] is neither exact nor cut off: use intervalCensoredSurvival`);
    }
    if (by === after) eventsAt.set(after, (eventsAt.get(after) ?? 0) + 1);
    return after;
  });
  times.sort((a, b) => a - b);
  let gone = 0;
  return [...eventsAt]
    .sort(([a], [b]) => a - b)
    .map(([time, events]) => {
      while (times[gone]! < time) gone += 1;
      return { time, atRisk: times.length - gone, events };
    });
}
