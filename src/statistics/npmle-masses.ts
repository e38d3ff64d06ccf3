import { type MassSpan, turnbullIntervals } from './turnbull-intervals.js';
import type { Interval } from './estimate.js';

/** Spans laid out for quick sums: span i covers the boxes from first[i] up to, not with, end[i]. */
export interface SpanTable {
  readonly boxes: number;
  readonly first: Int32Array;
  readonly end: Int32Array;
  readonly count: Float64Array;
  /** All counts together. */
  readonly observations: number;
}

/** Spans laid out for sums over so many boxes. @example spanTable([{ first: 0, end: 2, count: 3 }], 2).observations // → 3 */
export function spanTable(spans: readonly MassSpan[], boxes: number): SpanTable {
  return {
    boxes,
    first: Int32Array.from(spans, ({ first }) => first),
    end: Int32Array.from(spans, ({ end }) => end),
    count: Float64Array.from(spans, ({ count }) => count),
    observations: spans.reduce((sum, { count }) => sum + count, 0),
  };
}

/**
 * For each span, the sum of what lies in the boxes it covers.
 *
 * One running total serves all spans, as the difference of its values at the span's two ends. Such a difference
 * would lose the digits of a small sum, so the total carries along what rounding dropped (Neumaier's sum).
 *
 * Size:    as many steps as there are boxes and spans together, however wide the spans
 * Source:  A. Neumaier (1974)
 * Checked: tests/statistics/span-sums.test.ts, against sums box by box
 * @example [...sumInSpans(spanTable([{ first: 0, end: 2, count: 1 }], 3), Float64Array.of(1, 2, 4))] // → [3]
 */
export function sumInSpans(table: SpanTable, perBox: Float64Array): Float64Array {
  const total = runningTotal(perBox);
  const sums = new Float64Array(table.first.length);
  for (let i = 0; i < sums.length; i++) {
    const first = table.first[i]!;
    const end = table.end[i]!;
    sums[i] =
      end === first + 1
        ? perBox[first]!
        : total.sum[end]! - total.sum[first]! + (total.lost[end]! - total.lost[first]!);
  }
  return sums;
}

/**
 * The other way round: for each box, the sum of what belongs to the spans that cover it.
 *
 * Checked: tests/statistics/span-sums.test.ts
 * @example [...sumOverBoxes(spanTable([{ first: 0, end: 2, count: 1 }], 3), Float64Array.of(5))] // → [5, 5, 0]
 */
export function sumOverBoxes(table: SpanTable, perSpan: Float64Array): Float64Array {
  const changes = new Float64Array(table.boxes);
  for (let i = 0; i < perSpan.length; i++) {
    changes[table.first[i]!]! += perSpan[i]!;
    if (table.end[i]! < table.boxes) changes[table.end[i]!]! -= perSpan[i]!;
  }
  const total = runningTotal(changes);
  for (let box = 0; box < changes.length; box++) changes[box] = total.sum[box + 1]! + total.lost[box + 1]!;
  return changes;
}

function runningTotal(values: Float64Array): { sum: Float64Array; lost: Float64Array } {
  const sum = new Float64Array(values.length + 1);
  const lost = new Float64Array(values.length + 1);
  for (let k = 0; k < values.length; k++) {
    const before = sum[k]!;
    const value = values[k]!;
    const after = before + value;
    const dropped = Math.abs(before) >= Math.abs(value) ? before - after + value : value - after + before;
    sum[k + 1] = after;
    lost[k + 1] = lost[k]! + dropped;
  }
  return { sum, lost };
}

/**
 * The step that Newton's method would take from a set of masses towards the most likely one.
 *
 * Boxes that are empty and do no good filled stay empty. For the others the equations "curvature times step =
 * slope" are solved by conjugate gradients: only products with the curvature are needed, and each costs one sweep over
 * boxes and spans, where writing the curvature down would cost the square of the boxes. It need not be solved to
 * the last digit far from the goal, but ever better as the slope falls.
 *
 * Where several sets of masses are equally likely the curvature does not distinguish them; a ten-thousand-millionth
 * of its diagonal is added so that the step stays short there.
 *
 * Source:  J. Nocedal and S. J. Wright, Numerical Optimization (2006): conjugate gradients, and Newton steps solved no further than need be
 * Checked: tests/statistics/interval-censored-survival.test.ts
 */
function newtonDirection(table: SpanTable, masses: Float64Array, at: MassLikelihood): Float64Array {
  const bend = at.chances.map((chance, i) => table.count[i]! / (chance * chance));
  const diagonal = sumOverBoxes(table, bend);
  const free = masses.map((mass, box) => (mass > empty || at.slope[box]! > 0 ? 1 : 0));
  const step = masses.map((mass, box) => (free[box] ? 0 : -mass));
  const left = at.slope.map((slope, box) => slope * free[box]!);
  const eased = left.map((value, box) => value / diagonal[box]!);
  const direction = Float64Array.from(eased);
  let size = dot(left, eased);
  const goal = size * Math.min(1e-6, Math.max(1e-24, (at.shortBy / table.observations) ** 2));
  for (let round = 0; round < masses.length + 50 && size > goal; round++) {
    const curved = sumInSpans(table, direction);
    for (let i = 0; i < curved.length; i++) curved[i]! *= bend[i]!;
    const product = sumOverBoxes(table, curved);
    for (let box = 0; box < product.length; box++) {
      product[box] = free[box]! * (product[box]! + shortness * diagonal[box]! * direction[box]!);
    }
    const along = size / dot(direction, product);
    if (!Number.isFinite(along)) break;
    for (let box = 0; box < step.length; box++) {
      step[box]! += along * direction[box]!;
      left[box]! -= along * product[box]!;
    }
    for (let box = 0; box < step.length; box++) eased[box] = left[box]! / diagonal[box]!;
    const sizeNow = dot(left, eased);
    for (let box = 0; box < step.length; box++) {
      direction[box] = eased[box]! + (sizeNow / size) * direction[box]!;
    }
    size = sizeNow;
  }
  return step;
}

const empty = 1e-12;
const shortness = 1e-10;

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}

/**
 * The masses, one a box, that make the observed spans most likely.
 *
 * Two kinds of step take turns. Turnbull's own (each observation shares itself out over the boxes it covers by the
 * present masses; the shares are the new masses) never goes wrong but can take for ever. Newton's is quick near
 * the goal. It is cut off where a mass would fall below nothing, and shortened until the likelihood has grown.
 *
 * It stops when the largest slope, which bounds how much likelihood is missing, is below a thousand-millionth. With
 * thousands of spans that lean on each other rounding may not allow that: then it stops when nothing more is gained, and
 * is content with a thousand-millionth for each observation. Who needs less may start `from` masses near the best, each above 0,
 * and ask only that so much likelihood be missing as `shown` allows.
 *
 * Error:   Error if the masses cannot be shown to be the best; none is known to do so
 * Source:  B. W. Turnbull (1976), the first step; D. P. Bertsekas (1982), Newton's with a bound at nothing; the two
 *          combined: own
 * Checked: tests/statistics/interval-censored-survival.test.ts
 * @example [...npmleMasses({ boxes: 1, first: [0], end: [1], count: [2], observations: 2 }).masses] // → [1]
 */
export function npmleMasses(
  table: SpanTable,
  { from, shown = shownBest }: { from?: Float64Array; shown?: number } = {},
): MostLikely {
  let masses = from ? madeOne(from) : new Float64Array(table.boxes).fill(1 / table.boxes);
  let best: MostLikely = { masses, ...massLikelihood(table, masses) };
  let roundsWithoutGain = 0;
  for (let round = 0; round < 500; round++) {
    for (let k = 0; k < 20; k++) masses = sharedOut(table, masses);
    const at = massLikelihood(table, masses);
    roundsWithoutGain = at.shortBy < best.shortBy / 2 ? 0 : roundsWithoutGain + 1;
    if (at.shortBy < best.shortBy) best = { masses, ...at };
    const allowed = roundsWithoutGain < 8 ? shown : shown * table.observations;
    if (best.shortBy <= allowed) return best;
    masses = steppedUp(table, masses, at);
  }
  throw new Error(`no best masses found: still short by up to ${best.shortBy}`);
}

type MostLikely = MassLikelihood & { readonly masses: Float64Array };

const shownBest = 1e-9;

function sharedOut(table: SpanTable, masses: Float64Array): Float64Array<ArrayBuffer> {
  const { slope } = massLikelihood(table, masses);
  return madeOne(masses.map((mass, box) => mass * Math.max(0, 1 + slope[box]! / table.observations)));
}

/**
 * Newton's step, halved until it gains. The gain is measured on the log-likelihood less observations × sum of the
 * masses, whose peak over all masses, of whatever sum, is the one sought.
 */
function steppedUp(
  table: SpanTable,
  masses: Float64Array<ArrayBuffer>,
  at: MassLikelihood,
): Float64Array<ArrayBuffer> {
  const direction = newtonDirection(table, masses, at);
  const start = at.logLikelihood - table.observations;
  for (let share = 1; share > 1e-9; share /= 2) {
    const next = masses.map((mass, box) => Math.max(0, mass + share * direction[box]!));
    let promised = 0;
    for (let box = 0; box < next.length; box++) promised += at.slope[box]! * (next[box]! - masses[box]!);
    const { logLikelihood } = massLikelihood(table, next);
    const gained = logLikelihood - table.observations * sumOf(next) - start;
    if (gained >= 1e-4 * promised && promised > 0) return madeOne(next);
    if (Math.abs(promised) < withinRounding && gained >= -withinRounding) return madeOne(next);
  }
  return masses;
}

const withinRounding = 1e-9;

function madeOne(masses: Float64Array): Float64Array<ArrayBuffer> {
  const sum = sumOf(masses);
  return masses.map((mass) => mass / sum);
}

function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}

/** How well a set of masses fits the observations, and where it would fit better. */
interface MassLikelihood {
  /** The chance each span has under these masses. */
  readonly chances: Float64Array;
  /** Sum of the logarithms of the chances, each as often as it was observed; −∞ if some chance is 0. */
  readonly logLikelihood: number;
  /** For each box: how fast the log-likelihood grows with its mass, less the number of observations. */
  readonly slope: Float64Array;
  /** The largest slope: no other masses can have a log-likelihood higher by more than this. */
  readonly shortBy: number;
}

/**
 * The likelihood of masses put in boxes, with its slope.
 *
 * The masses are the best there are exactly when no slope is above 0 (the condition of Karush, Kuhn and Tucker;
 * where there is mass the slope is then 0). And the logarithm bends downward, so a set of masses that is not the best
 * falls short of it by at most its largest slope: that is what makes a claim of "best" one that can be checked.
 *
 * Source:  R. Gentleman and C. J. Geyer (1994); B. G. Lindsay (1983)
 * Checked: tests/laws/statistics-interval-censored.test.ts, against random other masses
 * @example massLikelihood({ boxes: 1, first: [0], end: [1], count: [2], observations: 2 }, [1]).shortBy // → 0
 */
export function massLikelihood(table: SpanTable, masses: Float64Array): MassLikelihood {
  const chances = sumInSpans(table, masses);
  let logLikelihood = 0;
  const pull = new Float64Array(chances.length);
  for (let i = 0; i < chances.length; i++) {
    const count = table.count[i]!;
    logLikelihood += chances[i]! > 0 ? count * Math.log(chances[i]!) : -Infinity;
    pull[i] = count / chances[i]!;
  }
  const slope = sumOverBoxes(table, pull);
  let shortBy = -Infinity;
  for (let box = 0; box < slope.length; box++) {
    slope[box]! -= table.observations;
    shortBy = Math.max(shortBy, slope[box]!);
  }
  return { chances, logLikelihood, slope, shortBy };
}

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
