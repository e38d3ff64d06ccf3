import { type Bounds, checkedLevel, type Interval } from './estimate.js';
import { turnbullIntervals } from './turnbull-intervals.js';
import { npmleMasses, type SpanTable, spanTable } from './npmle-masses.js';
import { approximateMle } from './approximate-mle.js';
import { seededRandom } from './seeded-random.js';
import { boundsOutward } from './wilson-share.js';

export type ShareBoundsOptions = Readonly<{ seed: number; draws: number; level?: number }>;

/**
 * Bounds of the share to whom the event has come, at some moments, of times seen only to lie in intervals.
 *
 * Whole clusters are drawn with replacement, and the most likely curve of each drawn set is worked out: the bounds leave the same
 * share of the drawn curves outside on either side. Where a drawn curve is not defined at the moment, its least
 * share counts for the lower bound and its largest for the upper. Drawing alone is too sure of itself with few clusters, and claims
 * to know for certain where all or none have had the event: so no bound is narrower than Wilson's for as many clusters
 * as were seen to be on one side of the moment. A share come only rises, and so do the bounds.
 *
 * Shape:   clusters of intervals, moments from early to late → bounds, one for each moment
 * Unit:    a share, 0 to 1
 * Valid:   two clusters or more; at least 1 ÷ (share outside on one side) draws
 * Error:   RangeError for fewer
 * Size:    drawn curves start from the curve of the whole and stop when so little likelihood is missing that it cannot be seen
 *          beside the width of the bounds: a fiftieth of a standard error
 * Source:  B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993); the wider of two: own
 * Checked: tests/statistics/share-bounds.test.ts
 * @example shareBounds([[{ after: 0, by: 2 }], [{ after: 0, by: 2 }]], [2], { seed: 1, draws: 39 })[0].high // → 1
 */
export function shareBounds(
  clusters: readonly (readonly Interval[])[],
  moments: readonly number[],
  { seed, draws, level = 0.95 }: ShareBoundsOptions,
): Bounds[] {
  if (clusters.length < 2) throw new RangeError(`${clusters.length} clusters: expected at least two`);
  const outside = (1 - checkedLevel(level)) / 2;
  if (!Number.isInteger(draws) || (draws + 1) * outside < 1 - 1e-9) {
    throw new RangeError(`${draws} draws: too few for a level of ${level}`);
  }
  const { boxes, spans, spanOf } = turnbullIntervals(clusters.flat());
  const table = spanTable(spans, boxes.length);
  let next = 0;
  /** Of each cluster the places of its spans in the table. */
  const spansOf = clusters.map((one) => one.map(() => spanOf[next++]!));
  const { masses } = npmleMasses(table);
  const reached = moments.map((moment) => reachedBy(boxes, moment));
  const random = seededRandom(seed);
  const least = moments.map(() => new Float64Array(draws));
  const most = moments.map(() => new Float64Array(draws));
  for (let draw = 0; draw < draws; draw++) {
    const drawn = new Float64Array(table.first.length);
    for (let k = 0; k < clusters.length; k++) {
      for (const span of spansOf[random.below(clusters.length)]!) drawn[span]! += 1;
    }
    const { start, end, table: own } = drawnTable(table, drawn);
    const likely = approximateMle(own, massesInRuns(masses, start, end), missing);
    sharesCome(likely, start, end, reached).forEach(({ low, high }, k) => {
      least[k]![draw] = low;
      most[k]![draw] = high;
    });
  }
  const ends = Int32Array.from(boxes, (_, box) => box + 1);
  const whole = sharesCome(
    masses,
    ends.map((end) => end - 1),
    ends,
    reached,
  );
  const rank = Math.max(1, Math.floor((draws + 1) * outside + 1e-9));
  return risen(
    moments.map((moment, k) => {
      // Known on which side of the moment one of its times fell.
      const told = clusters.filter((one) => one.some(({ after, by }) => by <= moment || after >= moment));
      const plain = boundsOutward(whole[k]!, told.length, level);
      return {
        low: Math.min(plain.low, least[k]!.sort()[rank - 1]!),
        high: Math.max(plain.high, most[k]!.sort()[draws - rank]!),
      };
    }),
  );
}

/** Likelihood missing from a drawn curve: a share is then off by about √(2 · 0.0002) = a fiftieth of its standard error. */
const missing = 2e-4;

/** How many boxes, from the first on, have wholly come by a moment, and how many perhaps. */
type Reached = Readonly<{ surely: number; perhaps: number }>;

function reachedBy(boxes: readonly Interval[], moment: number): Reached {
  return {
    surely: boxes.filter(({ by }) => by <= moment).length,
    perhaps: boxes.filter(({ after, by }) => by <= moment || after < moment).length,
  };
}

/** At each moment, in the order of the moments, what has come at least and at most. */
function sharesCome(
  masses: Float64Array,
  start: Int32Array,
  end: Int32Array,
  reached: readonly Reached[],
): Bounds[] {
  let [low, high, surely, perhaps] = [0, 0, 0, 0];
  return reached.map((at) => {
    for (; surely < masses.length && end[surely]! <= at.surely; surely++) low += masses[surely]!;
    for (; perhaps < masses.length && start[perhaps]! < at.perhaps; perhaps++) high += masses[perhaps]!;
    return { low, high };
  });
}

/** Where the drawn curve is sought from: the whole one's masses, and a little everywhere so that none is stuck at nothing. */
function massesInRuns(masses: Float64Array, start: Int32Array, end: Int32Array): Float64Array {
  return Float64Array.from(start, (first, run) => {
    let sum = 0.05 / start.length;
    for (let box = first; box < end[run]!; box++) sum += masses[box]!;
    return sum;
  });
}

/** A share come by one moment has come by all later ones. */
function risen(bounds: readonly Bounds[]): Bounds[] {
  let low = 0;
  const rising = bounds.map((one) => (low = Math.max(low, one.low)));
  let high = 1;
  const falling = bounds.toReversed().map((one) => (high = Math.min(high, one.high)));
  falling.reverse();
  return rising.map((one, k) => ({ low: one, high: falling[k]! }));
}

/**
 * The boxes of a drawn set, each as a run of boxes of the whole.
 *
 * With spans gone some ends of boxes are gone: boxes that every drawn span covers alike are one, and a box that is
 * covered by fewer than its neighbour holds nothing. What is left is as turnbullIntervals would find it, but without looking at
 * the intervals again.
 *
 * Shape:   spans of the whole, how often each was drawn, at least one of them → table and runs: box k of the table is made
 *          of the boxes of the whole from `start[k]` up to, not with, `end[k]`
 * Checked: tests/statistics/share-bounds.test.ts, against turnbullIntervals of the drawn intervals
 */
export function drawnTable(whole: SpanTable, drawn: Float64Array) {
  const begins = new Uint8Array(whole.boxes);
  const finishes = new Uint8Array(whole.boxes);
  let spans = 0;
  for (let i = 0; i < drawn.length; i++) {
    if (drawn[i] === 0) continue;
    spans += 1;
    begins[whole.first[i]!] = 1;
    finishes[whole.end[i]! - 1] = 1;
  }
  const start = new Int32Array(whole.boxes);
  const end = new Int32Array(whole.boxes);
  /** Of each box of the whole, how many runs start before it. */
  const before = new Int32Array(whole.boxes + 1);
  let runs = 0;
  let begun = -1;
  for (let box = 0; box < whole.boxes; box++) {
    before[box] = runs;
    if (begins[box]) begun = box;
    if (!finishes[box] || begun < 0) continue;
    start[runs] = begun;
    end[runs] = box + 1;
    for (let back = begun + 1; back <= box; back++) before[back] = runs + 1;
    runs += 1;
    begun = -1;
  }
  before[whole.boxes] = runs;
  const table = {
    boxes: runs,
    first: new Int32Array(spans),
    end: new Int32Array(spans),
    count: new Float64Array(spans),
    observations: 0,
  };
  for (let i = 0, k = 0; i < drawn.length; i++) {
    if (drawn[i] === 0) continue;
    table.first[k] = before[whole.first[i]!]!;
    table.end[k] = before[whole.end[i]!]!;
    table.count[k] = drawn[i]!;
    table.observations += drawn[i]!;
    k += 1;
  }
  return { table, start: start.subarray(0, runs), end: end.subarray(0, runs) };
}
