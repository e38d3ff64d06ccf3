import { npmleMasses, type SpanTable } from './npmle-masses.js';

/**
 * The most likely masses, near enough: for curves that are worked out by the hundred and never shown.
 *
 * The curve is taken by its heights at the ends of boxes, where the chance of a span is the difference of two. In each round
 * every observation first shares itself out over the boxes it covers; then every height moves as its own slope and bend say,
 * the moved heights are put back in rising order at the least cost, and the curve goes as far towards them as the likelihood
 * grows. A round costs a few sweeps over spans and boxes, and from a curve near by it takes a handful.
 *
 * Shape:   table, masses near the best and each above 0, likelihood that may be missing → masses
 * Source:  J. A. Wellner and Y. Zhan (1997), the hybrid of convex minorant and expectation
 * Checked: tests/statistics/share-bounds.test.ts, against npmleMasses
 */
export function approximateMle(table: SpanTable, from: Float64Array, missing: number): Float64Array {
  const size = table.boxes + 1;
  const slope = new Float64Array(size);
  const bend = new Float64Array(size);
  const moved = new Float64Array(size);
  const tried = new Float64Array(size);
  const masses = from.slice();
  let heights = heightsOf(masses);
  for (let round = 0; round < mostRounds; round++) {
    if (shareOut(table, heights, masses, slope) <= missing) return masses;
    heights = heightsOf(masses);
    const likelihood = slopesOf(table, heights, slope, bend);
    for (let k = 1; k < table.boxes; k++) moved[k] = heights[k]! + slope[k]! / bend[k]!;
    isotonicRegression(moved, bend, 1, table.boxes);
    for (let share = 1; share > leastShare; share /= 2) {
      for (let k = 1; k < table.boxes; k++) {
        const goal = Math.min(1, Math.max(0, moved[k]!));
        tried[k] = heights[k]! + share * (goal - heights[k]!);
      }
      tried[table.boxes] = 1;
      if (!(likelihoodOf(table, tried) >= likelihood)) continue;
      heights.set(tried);
      break;
    }
  }
  return npmleMasses(table, { shown: missing }).masses;
}

const mostRounds = 60;
const leastShare = 1e-3;

/** Height k is the sum of the masses of the first k boxes, all together 1. */
function heightsOf(masses: Float64Array): Float64Array {
  const heights = new Float64Array(masses.length + 1);
  for (let box = 0; box < masses.length; box++) heights[box + 1] = heights[box]! + masses[box]!;
  const all = heights[masses.length]!;
  for (let k = 1; k <= masses.length; k++) heights[k]! /= all;
  return heights;
}

/** Turnbull's step from heights into `masses`; gives by how much the likelihood at the heights may fall short. */
function shareOut(
  { first, end, count, boxes, observations }: SpanTable,
  heights: Float64Array,
  masses: Float64Array,
  pull: Float64Array,
): number {
  pull.fill(0);
  for (let i = 0; i < first.length; i++) {
    const one = count[i]! / (heights[end[i]!]! - heights[first[i]!]!);
    pull[first[i]!]! += one;
    pull[end[i]!]! -= one;
  }
  let sum = 0;
  let steepest = 0;
  for (let box = 0; box < boxes; box++) {
    sum += pull[box]!;
    steepest = Math.max(steepest, sum);
    masses[box] = Math.max(0, ((heights[box + 1]! - heights[box]!) * sum) / observations);
  }
  return steepest - observations;
}

/** How the likelihood changes with each height alone, once and twice over; gives the likelihood. */
function slopesOf(
  { first, end, count }: SpanTable,
  heights: Float64Array,
  slope: Float64Array,
  bend: Float64Array,
): number {
  slope.fill(0);
  bend.fill(0);
  let likelihood = 0;
  for (let i = 0; i < first.length; i++) {
    const [from, to] = [first[i]!, end[i]!];
    const chance = heights[to]! - heights[from]!;
    const one = count[i]! / chance;
    slope[to]! += one;
    slope[from]! -= one;
    bend[to]! += one / chance;
    bend[from]! += one / chance;
    likelihood += count[i]! * Math.log(chance);
  }
  return likelihood;
}

function likelihoodOf({ first, end, count }: SpanTable, heights: Float64Array): number {
  let likelihood = 0;
  for (let i = 0; i < first.length; i++) {
    const chance = heights[end[i]!]! - heights[first[i]!]!;
    if (!(chance > 0)) return -Infinity;
    likelihood += count[i]! * Math.log(chance);
  }
  return likelihood;
}

/**
 * Puts values from one place up to another, not with it, in rising order, in place: neighbours out of order take their weighted mean.
 *
 * Of all rising values these lie nearest to the given ones, by the weighted sum of squares.
 *
 * Valid:   weights above 0
 * Source:  the pooling of adjacent violators, R. E. Barlow and others (1972)
 * Checked: tests/statistics/share-bounds.test.ts (by hand)
 * @example isotonicRegression(Float64Array.of(1, 4, 2, 5), Float64Array.of(1, 1, 1, 1), 0, 4) // → undefined
 */
export function isotonicRegression(
  values: Float64Array,
  weights: Float64Array,
  start: number,
  end: number,
): void {
  const means: number[] = [];
  const sums: number[] = [];
  const ends: number[] = [];
  for (let k = start; k < end; k++) {
    let mean = values[k]!;
    let sum = weights[k]!;
    while (means.length > 0 && means.at(-1)! >= mean) {
      const before = sums.pop()!;
      mean = (mean * sum + means.pop()! * before) / (sum + before);
      sum += before;
      ends.pop();
    }
    means.push(mean);
    sums.push(sum);
    ends.push(k + 1);
  }
  let from = start;
  ends.forEach((to, at) => {
    values.fill(means[at]!, from, to);
    from = to;
  });
}
