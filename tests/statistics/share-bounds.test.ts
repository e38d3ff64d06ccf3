import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { turnbullIntervals } from '../../src/statistics/turnbull-intervals.js';
import { drawnTable, shareBounds } from '../../src/statistics/share-bounds.js';
import { isotonicRegression, approximateMle } from '../../src/statistics/approximate-mle.js';
import {
  intervalCensoredSurvival,
  massLikelihood,
  npmleMasses,
  spanTable,
} from '../../src/statistics/npmle-masses.js';
import { type Interval, interval } from '../../src/statistics/estimate.js';
import { survivalAt } from './survival-at.js';
import { wilsonShare } from '../../src/statistics/wilson-share.js';

const settings = { seed: 20261125, numRuns: 150 };

const time = fc.integer({ min: 0, max: 30 });
const any = fc.array(
  fc.oneof(
    time.map((at) => interval(at, at)),
    time.map((after) => interval(after, Infinity)),
    fc.tuple(time, fc.integer({ min: 1, max: 15 })).map(([after, more]) => interval(after, after + more)),
  ),
  { minLength: 2, maxLength: 30 },
);
const drawnOf = fc
  .tuple(any, fc.array(fc.nat(), { minLength: 30, maxLength: 30 }))
  .map(([given, picks]) => [given, given.map((_, k) => picks[k]! % given.length)] as const);

const tableOf = (intervals: readonly Interval[]) => {
  const { boxes, spans, spanOf } = turnbullIntervals(intervals);
  return { boxes, spanOf, table: spanTable(spans, boxes.length) };
};

test('a drawn table is that of the drawn intervals', () => {
  fc.assert(
    fc.property(drawnOf, ([given, picks]) => {
      const { boxes, spanOf, table } = tableOf(given);
      const drawn = new Float64Array(table.first.length);
      for (const pick of picks) drawn[spanOf[pick]!]! += 1;
      const own = drawnTable(table, drawn);
      const anew = tableOf(picks.map((pick) => given[pick]!));
      // The same number of boxes, each lying around the run it is made of, and masses as likely as any.
      expect(own.table.boxes).toBe(anew.boxes.length);
      anew.boxes.forEach(({ after, by }, run) => {
        expect(boxes[own.start[run]!]!.after).toBeGreaterThanOrEqual(after);
        expect(boxes[own.end[run]! - 1]!.by).toBeLessThanOrEqual(by);
      });
      const best = npmleMasses(anew.table);
      expect(npmleMasses(own.table).logLikelihood).toBeCloseTo(best.logLikelihood, 7);
    }),
    settings,
  );
});

test('nearly the likeliest falls short by no more than allowed, wherever it starts', () => {
  fc.assert(
    fc.property(
      any,
      fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 60, maxLength: 60 }),
      (given, weights) => {
        const { table } = tableOf(given);
        const masses = approximateMle(table, Float64Array.from(weights.slice(0, table.boxes)), 2e-4);
        expect(masses.reduce((sum, mass) => sum + mass, 0)).toBeCloseTo(1, 9);
        expect(masses.every((mass) => mass >= 0)).toBe(true);
        const short = npmleMasses(table).logLikelihood - massLikelihood(table, masses).logLikelihood;
        expect(short).toBeLessThan(2.1e-4);
      },
    ),
    settings,
  );
});

// 4 before 2 is out of order: both become 3. With the weight 3 on the 4 they become (3·4 + 2)/4 = 3.5.
test('rising order, by hand', () => {
  const values = Float64Array.of(9, 1, 4, 2, 5, 0);
  isotonicRegression(values, Float64Array.of(1, 1, 1, 1, 1, 1), 1, 5);
  expect([...values]).toEqual([9, 1, 3, 3, 5, 0]);
  const weighed = Float64Array.of(4, 2);
  isotonicRegression(weighed, Float64Array.of(3, 1), 0, 2);
  expect([...weighed]).toEqual([3.5, 3.5]);
});

const single = (...intervals: Interval[]) => intervals.map((one) => [one]);
const chance = { seed: 1, draws: 399 };

describe('bounds of a share come', () => {
  // Every drawn set of ten that had all come by day 14 says so too; what is left is chance in ten, by Wilson: 10 of 10 leaves
  // 0.7225 to 1, and by a day before any had come 0 to 0.2775.
  test('all or none of ten: not certain, but as chance in ten leaves it', () => {
    const ten = single(...Array.from({ length: 10 }, () => interval(7, 14)));
    const [none, all] = shareBounds(ten, [7, 14], chance);
    expect(none).toEqual({ low: 0, high: wilsonShare(0, 10).high });
    expect(all).toEqual({ low: wilsonShare(10, 10).low, high: 1 });
    expect(all!.low).toBeCloseTo(0.7225, 4);
  });

  // One of ten: a drawn set has none of it in 35 % of cases, and 4 or more, of which 1.3 % do, are past 2.5 %: 0 to 0.3. By
  // Wilson 1 of 10 leaves 0.0179 to 0.4042.
  test('one of ten: the wider of the two on each side', () => {
    const ten = single(interval(1, 1), ...Array.from({ length: 9 }, () => interval(2, Infinity)));
    const [one] = shareBounds(ten, [1], { seed: 5, draws: 1999 });
    expect(one!.low).toBeLessThan(0.01);
    expect(one!.high).toBeCloseTo(wilsonShare(1, 10).high, 5);
    expect(one!.high).toBeCloseTo(0.4042, 4);
  });

  // Of 100 exact times 50 are at 1. A drawn set has Binomial(100, ½) of them: 2.5 % of such have 40 or fewer, by the normal
  // approximation 50 ± 1.96 · 5 = 40.2 to 59.8.
  test('of exact times they are those of a drawn share', () => {
    const times = single(...Array.from({ length: 100 }, (_, k) => interval(1 + (k % 2), 1 + (k % 2))));
    const [half] = shareBounds(times, [1], { seed: 3, draws: 1999 });
    expect(Math.abs(half!.low - 0.402)).toBeLessThan(0.012);
    expect(Math.abs(half!.high - 0.598)).toBeLessThan(0.012);
  });

  // Ten lesions of one animal had come, one each of eleven others had not. Drawn K times in twelve, she makes a share of
  // 10K/(10K + 12 − K). K is Binomial(12, 1/12): 0 in 35 % of drawn sets, so the lower bound is 0; above 3 in 1.8 %, above 2
  // in 7.3 %, so the upper one is that of K = 3: 30/39. A fiftieth of a standard error is allowed for drawn curves.
  test('one animal with nearly all of the lesions: as far as she may be drawn seldom or often', () => {
    const she = Array.from({ length: 10 }, () => interval(1, 1));
    const others = Array.from({ length: 11 }, () => [interval(2, Infinity)]);
    for (const seed of [1, 2, 3, 4]) {
      const [share] = shareBounds([she, ...others], [1], { seed, draws: 1999 });
      expect(share!.low).toBeLessThan(0.01);
      expect(Math.abs(share!.high - 30 / 39)).toBeLessThan(0.01);
    }
  });

  test('four lesions of one animal are one witness: the bounds are wider than of as many animals', () => {
    const times = Array.from({ length: 40 }, (_, k) => interval(k < 20 ? 0 : 14, k < 20 ? 14 : 28));
    const together = Array.from({ length: 10 }, (_, k) => times.slice(4 * k, 4 * k + 4));
    const [apart, joined] = [single(...times), together].map((set) => shareBounds(set, [14], chance)[0]!);
    expect(joined!.high - joined!.low).toBeGreaterThan(1.5 * (apart!.high - apart!.low));
  });

  test('they hold the curve, rise, do not hang on the order within a cluster, and are dealt again by the same seed', () => {
    const moments = [0, 5, 10, 15, 20, 25, 30];
    fc.assert(
      fc.property(any, (given) => {
        const bounds = shareBounds(single(...given), moments, { seed: 1, draws: 39 });
        const { support } = intervalCensoredSurvival(given);
        bounds.forEach(({ low, high }, k) => {
          const still = survivalAt(support, moments[k]!);
          expect(low).toBeLessThanOrEqual(1 - still.high + 1e-6);
          expect(high).toBeGreaterThanOrEqual(1 - still.low - 1e-6);
          expect(low).toBeGreaterThanOrEqual(bounds[k - 1]?.low ?? 0);
          expect(high).toBeGreaterThanOrEqual(bounds[k - 1]?.high ?? 0);
        });
        expect(shareBounds(single(...given), moments, { seed: 1, draws: 39 })).toEqual(bounds);
      }),
      settings,
    );
  });

  test.each([
    ['one cluster', single(interval(0, 1)), chance],
    ['too few draws', single(interval(0, 1), interval(0, 1)), { seed: 1, draws: 30 }],
    ['a level in per cent', single(interval(0, 1), interval(0, 1)), { ...chance, level: 95 }],
  ])('refused: %s', (_, clusters, options) => {
    expect(() => shareBounds(clusters, [1], options)).toThrow(RangeError);
  });
});
