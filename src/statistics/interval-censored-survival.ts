import { turnbullIntervals } from './turnbull-intervals.js';
import type { Interval } from './estimate.js';
import { npmleMasses } from './npmle-masses.js';
import { spanTable } from './span-sums.js';

/** A share of the events, known to fall in this interval and not where within it. */
export interface MassIn extends Interval {
  readonly mass: number;
}

/** The most likely curve of times that were each seen only to lie in an interval. */
export interface IntervalCensoredSurvival {
  /** Where the events fall, from early to late; the masses sum to 1. Elsewhere there is none. */
  readonly support: readonly MassIn[];
  /** The natural logarithm of the likelihood of these masses. */
  readonly logLikelihood: number;
}

/**
 * How the time to an event is spread, when each was seen only to have come after one look and by another.
 *
 * A trim every six weeks finds the sole closed that was open before; on which day it closed nobody saw. To count
 * the day of finding as the day of closing makes every healing later than it was, and the middle of the interval is a
 * guess. This estimate uses the intervals as they are and supposes no form of curve: of all there are it is the most likely
 * (Turnbull's). What was not seen again stays in, as (last look, ∞].
 *
 * The curve falls only inside certain boxes, the innermost intervals. Between them it is level; inside a box nothing
 * is known of it but its two ends, so none may be drawn (survivalAt gives both bounds). Where different masses are equally
 * likely, which is rare, one of them is given, the same for any order of the input.
 *
 * It supposes that the looks were not timed by the event. A cow called back because she walks badly bends it.
 *
 * Shape:   intervals in any order → boxes with their masses, from early to late
 * Unit:    that of the intervals; shifting or scaling them shifts or scales the boxes and leaves the masses
 * Valid:   one interval or more; `(after, by]`, `by` Infinity if not seen again, `after` = `by` if exact
 * Error:   masses are proved the best by their slope: log-likelihood short by at most 1e-9, on sets of thousands
 *          that rounding hampers at most 1e-9 for each interval. RangeError for no interval, or none at all
 * Source:  B. W. Turnbull (1976)
 * Checked: tests/statistics/interval-censored-survival.test.ts (by hand),
 *          tests/statistics/survival-reference.test.ts (plain sums), tests/laws/statistics-interval-censored.test.ts
 * @example intervalCensoredSurvival([{ after: 3, by: 5 }]).support // → [{ after: 3, by: 5, mass: 1 }]
 */
export function intervalCensoredSurvival(intervals: readonly Interval[]): IntervalCensoredSurvival {
  if (intervals.length === 0) throw new RangeError('no intervals: a curve needs at least one');
  const { boxes, spans } = turnbullIntervals(intervals);
  const { masses, logLikelihood } = npmleMasses(spanTable(spans, boxes.length));
  const kept = boxes
    .map(({ after, by }, box) => ({ after, by, mass: masses[box]! }))
    .filter(({ mass }) => mass > worthKeeping);
  const sum = kept.reduce((before, { mass }) => before + mass, 0);
  const support = kept.map(({ after, by, mass }) => ({ after, by, mass: mass / sum }));
  return { support, logLikelihood };
}

/** What is left of masses on their way to nothing; together they stay far below the error allowed. */
const worthKeeping = 1e-10;
