import type { Bounds } from './bounds.js';
import { checkedLevel } from './checked-level.js';
import type { Interval } from './interval.js';
import { type RiskRow, riskTable } from './risk-table.js';
import { type ErrorScale, survivalBounds } from './survival-bounds.js';

/** One fall of the curve. */
export interface SurvivalStep extends RiskRow {
  /** The share for whom the event is still to come after this time. */
  readonly survival: number;
  /** Its variance by Greenwood; 0 once nobody is left. */
  readonly variance: number;
  /** Bounds at the level asked for; none once nobody is left, where no error is defined. */
  readonly bounds: Bounds | undefined;
  /** Nelson's and Aalen's sum of events over those at risk, up to and with this time. */
  readonly cumulativeHazard: number;
}

/** A survival curve: its falls, and the time by which half have had the event. */
export interface KaplanMeier {
  readonly steps: readonly SurvivalStep[];
  /** The first time by which half have had the event, with its bounds; Infinity for what was not reached. */
  readonly median: Bounds & { readonly time: number };
  /** The last time anyone was seen, with or without the event: past it the curve is not known. */
  readonly lastSeen: number;
}

/**
 * How the time to an event is spread, when each time is exact or cut off (Kaplan and Meier).
 *
 * The curve stands at 1 until the first event and is level between steps. Everyone cut off at a time was still waiting at
 * it: ties of an event and a last look go to the event. All cut off gives no step and no median.
 *
 * The median is the first time at which the curve is at or below a half, its bounds the first times at which the bounds
 * of the curve are (Brookmeyer and Crowley). Where the curve runs level at just a half that is the start of the
 * level; some programs give its middle.
 *
 * It supposes that being cut off says nothing about the event. For times seen only between two looks it is the wrong tool.
 *
 * Valid:   one interval or more, each exact or with `by` Infinity; level above 0, below 1
 * Error:   RangeError for any other interval, for none, for another level
 * Source:  E. L. Kaplan and P. Meier (1958); the variance by M. Greenwood (1926); the bounds of the median by R. Brookmeyer
 *          and J. Crowley (1982)
 * Checked: tests/statistics/kaplan-meier.test.ts (by hand), survival-reference.test.ts (plain definitions)
 * @example kaplanMeier([{ after: 2, by: 2 }, { after: 4, by: Infinity }]).steps[0].survival // → 0.5
 */
export function kaplanMeier(
  intervals: readonly Interval[],
  { level = 0.95, errorScale = 'log-log' }: { level?: number; errorScale?: ErrorScale } = {},
): KaplanMeier {
  if (intervals.length === 0) throw new RangeError('no times: a curve needs at least one');
  checkedLevel(level);
  let survival = 1;
  let cumulativeHazard = 0;
  let varianceOfLog = 0;
  const steps = riskTable(intervals).map((row): SurvivalStep => {
    const { atRisk, events } = row;
    survival *= (atRisk - events) / atRisk;
    cumulativeHazard += events / atRisk;
    if (survival === 0) return { ...row, survival, variance: 0, bounds: undefined, cumulativeHazard };
    varianceOfLog += events / (atRisk * (atRisk - events));
    const bounds = survivalBounds(survival, Math.sqrt(varianceOfLog), level, errorScale);
    return { ...row, survival, variance: survival * survival * varianceOfLog, bounds, cumulativeHazard };
  });
  const median = {
    time: firstHalved(steps, (step) => step.survival),
    low: firstHalved(steps, (step) => step.bounds?.low ?? Infinity),
    high: firstHalved(steps, (step) => step.bounds?.high ?? Infinity),
  };
  return { steps, median, lastSeen: intervals.reduce((last, { after }) => Math.max(last, after), -Infinity) };
}

/** To within rounding: a product such as 5/6 · 3/5 that should be a half may come out a hair above it. */
function firstHalved(steps: readonly SurvivalStep[], height: (step: SurvivalStep) => number): number {
  return steps.find((step) => height(step) <= 0.5 + 1e-12)?.time ?? Infinity;
}
