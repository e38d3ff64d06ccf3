import { type Bounds, checkedLevel, type Interval, interval } from './estimate.js';
import { normalQuantile } from './normal.js';

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
 * The curve is at 1 until the first event and is level between steps. Everyone cut off at a time was still waiting at
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
 * Checked: tests/statistics/kaplan-meier.test.ts (by hand), tests/statistics/survival-reference.test.ts (plain definitions)
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

/** The scale on which the error of a survival share is taken as normal. */
export type ErrorScale = 'plain' | 'log' | 'log-log';

/**
 * Bounds for a survival share, from the error of its logarithm.
 *
 * On the plain scale and the logarithmic one a bound can leave 0 to 1 and is then cut off there; log(−log) never leaves
 * it and holds its promise best with few cases, so it is the one to print. The others are here to be compared
 * with.
 *
 * Valid:   a share above 0 and below 1; at 0 the error is not defined and neither are the bounds
 * Source:  J. D. Kalbfleisch and R. L. Prentice, The Statistical Analysis of Failure Time Data (1980);
 *          O. Borgan and K. Liestøl (1990)
 * Checked: tests/statistics/survival-reference.test.ts, against bounds by their definition
 * @example survivalBounds(0.5, 0, 0.95, 'plain') // → { low: 0.5, high: 0.5 }
 */
export function survivalBounds(share: number, errorOfLog: number, level: number, scale: ErrorScale): Bounds {
  const reach = normalQuantile((1 + level) / 2) * errorOfLog;
  if (scale === 'plain') {
    return { low: Math.max(0, share - share * reach), high: Math.min(1, share + share * reach) };
  }
  if (scale === 'log') return { low: share * Math.exp(-reach), high: Math.min(1, share * Math.exp(reach)) };
  const turned = reach / Math.log(share);
  return { low: share ** Math.exp(-turned), high: share ** Math.exp(turned) };
}

/** One moment at which something happened: how many were waiting just before it, and to how many it happened. */
type RiskRow = Readonly<{ time: number; atRisk: number; events: number }>;

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
