import { intervalCensoredSurvival } from './npmle-masses.js';
import type { Interval } from './estimate.js';
import { seededRandom } from './seeded-random.js';

/**
 * A score for each interval: how much earlier it says than the common curve led one to expect.
 *
 * A positive score says sooner than expected, a negative one later; together they sum to 0. For an exact time it is 1 less the
 * cumulative hazard up to and with it, for one cut off it is 0 less the hazard survived: what was seen less what was
 * expected. For an interval it is that, averaged over where the common curve puts the event in it:
 *
 *     [ S(by) · H(by) − S(after) · H(after) ] ÷ [ S(after) − S(by) ],   H the sum of mass ÷ S just before it
 *
 * with S the interval-censored estimate of all together; at S = 0 the product is 0. No interval ends inside a box, so S
 * and H are known wherever they are asked. With exact and cut-off times only, a group's scores sum to the "observed less
 * expected" of the log-rank test.
 *
 * Shape:   intervals → as many scores, in their order; they do not change with the unit of time
 * Source:  J. Sun (1996); M. P. Fay and P. A. Shaw (2010), where it is called the logrank1 score
 * Checked: tests/statistics/log-rank-scores.test.ts
 * @example logRankScores([{ after: 0, by: 1 }, { after: 1, by: Infinity }]) // → [0.5, -0.5]
 */
export function logRankScores(intervals: readonly Interval[]): number[] {
  const { support } = intervalCensoredSurvival(intervals);
  const levels = [{ survival: 1, hazard: 0 }];
  for (const { mass } of support) {
    const { survival, hazard } = levels.at(-1)!;
    const left = Math.max(0, survival - mass);
    levels.push({ survival: left, hazard: hazard + (left > 0 ? mass / survival : 1) });
  }
  levels.at(-1)!.survival = 0;
  return intervals.map(({ after, by }) => {
    const exact = after === by;
    const start = levels[countUntil(support, (box) => (exact ? box.by < by : box.by <= after))]!;
    const end = levels[countUntil(support, (box) => box.by <= by)]!;
    const fall = start.survival - end.survival;
    return (end.survival * end.hazard - start.survival * start.hazard) / fall;
  });
}

/** How many of the first boxes (early to late) do so. */
function countUntil(support: readonly Interval[], does: (box: Interval) => boolean): number {
  let low = 0;
  let high = support.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (does(support[middle]!)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The observations of each cluster of a group. A cluster is what is not independent, such as one animal's lesions. */
export type Clusters<T> = readonly (readonly T[])[];

/** A difference between two groups: 0 where there is none, far from 0 either way where it is large. */
type GroupDifference<T> = (first: Clusters<T>, second: Clusters<T>) => number;

/** A difference between two groups, and how often chance alone would bring one as large. */
export interface PermutationTest {
  /** The difference as observed. */
  readonly difference: number;
  /** The chance of one at least as far from 0 if the groups were dealt out blindly; never 0. */
  readonly p: number;
  /** How many dealings it is based on, and whether those were all there are. */
  readonly dealings: number;
  readonly exact: boolean;
}

interface PermutationOptions {
  readonly seed: number;
  /** Dealings drawn when there are too many to go through. */
  readonly draws?: number;
  /** Up to so many dealings all are gone through. */
  readonly exactUpTo?: number;
}

/**
 * Whether two groups differ by more than blind dealing would make them, whole clusters dealt.
 *
 * If the groups do not differ, any dealing of the same clusters into groups of the same sizes was as likely as the one
 * seen. So the p-value is the share of dealings whose difference is as far from 0: over all of them where they are few;
 * else over a seeded sample, counted with the observed one, (1 + as far) ÷ (1 + drawn), so that it is never 0.
 *
 * For intervals the difference, unless another is given, is that of interval-censored survival: the sum of log-rank scores in
 * the first group. Above 0: there the event came sooner. It is judged without supposing any form of curve, and is most
 * apt to see a rate that is a steady multiple of the other's.
 *
 * It supposes that both groups were looked at alike. If one is visited more often, blind dealing does not undo that.
 *
 * Shape:   two groups of clusters of observations → difference and p
 * Valid:   one cluster or more in each group
 * Error:   RangeError for an empty group or a difference that is no finite number. Differences within 1e-9 of the
 *          largest count as equal, since sums in another order round otherwise
 * Source:  M. P. Fay and P. A. Shaw (2010); B. Phipson and G. K. Smyth (2010), why a chance is never reported as 0
 * Checked: tests/statistics/permutation-test.test.ts (by hand), tests/laws/statistics-resampling.test.ts
 * @example permutationTest([[{ after: 1, by: 1 }]], [[{ after: 2, by: 2 }]], { seed: 1 }).p // → 1
 */
export function permutationTest(
  first: Clusters<Interval>,
  second: Clusters<Interval>,
  options: PermutationOptions,
): PermutationTest;
export function permutationTest<T>(
  first: Clusters<T>,
  second: Clusters<T>,
  options: PermutationOptions & { readonly difference: GroupDifference<T> },
): PermutationTest;
export function permutationTest(
  first: Clusters<Interval>,
  second: Clusters<Interval>,
  {
    seed,
    draws = 9999,
    exactUpTo = 20_000,
    difference,
  }: PermutationOptions & { readonly difference?: GroupDifference<Interval> },
): PermutationTest {
  if (first.length === 0 || second.length === 0) throw new RangeError('a group is empty: nothing to compare');
  if (!Number.isInteger(draws) || draws < 1) throw new RangeError(`${draws} draws: expected at least one`);
  const clusters = [...first, ...second];
  const measure = difference ?? scoreDifference(clusters);
  const differenceOf = (chosen: readonly number[]): number => {
    const isFirst = new Set(chosen);
    const value = measure(
      clusters.filter((_, k) => isFirst.has(k)),
      clusters.filter((_, k) => !isFirst.has(k)),
    );
    if (Number.isFinite(value)) return value;
    throw new RangeError(`the difference came out as ${value}: expected a finite number`);
  };
  const observed = differenceOf(first.map((_, k) => k));
  const exact = combinations(clusters.length, first.length) <= exactUpTo;
  const dealt = exact
    ? [...everyChoice(clusters.length, first.length)].map(differenceOf)
    : [...drawnChoices(clusters.length, first.length, { seed, draws })].map(differenceOf);
  const slack =
    1e-9 * dealt.reduce((largest, value) => Math.max(largest, Math.abs(value)), Math.abs(observed));
  const asFar = dealt.filter((value) => Math.abs(value) >= Math.abs(observed) - slack).length;
  const p = exact ? asFar / dealt.length : (1 + asFar) / (1 + dealt.length);
  return { difference: observed, p, dealings: dealt.length, exact };
}

/** The scores are of all together, so no dealing changes them: they are worked out once. */
function scoreDifference(clusters: Clusters<Interval>): GroupDifference<Interval> {
  const scores = logRankScores(clusters.flat());
  let next = 0;
  const scoreOf = new Map(
    clusters.map((cluster) => {
      const from = next;
      next += cluster.length;
      return [cluster, scores.slice(from, next).reduce((sum, score) => sum + score, 0)];
    }),
  );
  return (first) => first.reduce((sum, cluster) => sum + scoreOf.get(cluster)!, 0);
}

/**
 * In how many ways so many can be chosen out of all.
 *
 * @example combinations(6, 3) // → 20
 */
export function combinations(all: number, chosen: number): number {
  let ways = 1;
  for (let k = 1; k <= Math.min(chosen, all - chosen); k++) ways = (ways * (all - k + 1)) / k;
  return Math.round(ways);
}

/**
 * Every choice of so many out of all, as lists of places, in the order of the dictionary.
 *
 * @example [...everyChoice(3, 2)] // → [[0, 1], [0, 2], [1, 2]]
 */
export function* everyChoice(all: number, chosen: number): Generator<number[]> {
  const places = Array.from({ length: chosen }, (_, k) => k);
  for (;;) {
    yield [...places];
    let moving = chosen - 1;
    while (moving >= 0 && places[moving] === all - chosen + moving) moving -= 1;
    if (moving < 0) return;
    places[moving]! += 1;
    for (let k = moving + 1; k < chosen; k++) places[k] = places[k - 1]! + 1;
  }
}

/**
 * So many blind choices, each as likely as any other (the first places of a Fisher-Yates shuffle).
 *
 * @example [...drawnChoices(2, 2, { seed: 1, draws: 1 })].flat().length // → 2
 */
export function* drawnChoices(
  all: number,
  chosen: number,
  { seed, draws }: { seed: number; draws: number },
): Generator<number[]> {
  const random = seededRandom(seed);
  const places = Array.from({ length: all }, (_, k) => k);
  for (let draw = 0; draw < draws; draw++) {
    for (let k = 0; k < chosen; k++) {
      const other = k + random.below(all - k);
      [places[k], places[other]] = [places[other]!, places[k]!];
    }
    yield places.slice(0, chosen);
  }
}
