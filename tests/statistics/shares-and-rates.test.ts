import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  poissonAtLeast,
  poissonAtMost,
  poissonExactly,
  poissonRate,
} from '../../src/statistics/poisson-rate.js';
import { boundsOutward, wilsonShare } from '../../src/statistics/wilson-share.js';

describe('exact bounds of a rate', () => {
  // The 95 % limits of a Poisson count as printed in the usual tables (Garwood 1936; Pearson and Hartley, Biometrika Tables
  // for Statisticians I, table 40), to three decimals: hence half of the third.
  test.each([
    [0, 0, 3.689],
    [1, 0.025, 5.572],
    [2, 0.242, 7.225],
    [3, 0.619, 8.767],
    [4, 1.09, 10.242],
    [5, 1.623, 11.668],
    [10, 4.795, 18.39],
    [20, 12.217, 30.888],
    [100, 81.364, 121.627],
  ])('%i events: the printed table', (events, low, high) => {
    const rate = poissonRate(events, 1);
    expect(rate.value).toBe(events);
    expect(Math.abs(rate.low - low)).toBeLessThan(0.00051);
    expect(Math.abs(rate.high - high)).toBeLessThan(0.00051);
  });

  // Half the quantiles of χ² with 2k and 2k + 2 degrees of freedom, by scipy 1.17.1. Bounds are sought to 1e-9 in the count.
  test.each([
    [0.9, 3, 0.8176914471639533, 7.753656527932725],
    [0.9, 1000, 948.5598493836511, 1053.6031221333008],
    [0.95, 1, 0.025317807984289897, 5.571643390938898],
    [0.95, 10, 4.7953886961324335, 18.39035604201778],
    [0.95, 1000, 938.9730184076952, 1063.952136016302],
    [0.99, 5, 1.0779282406523196, 14.149759411023012],
    [0.99, 100, 76.12049584368918, 128.76058012010245],
    [0.99, 20000, 19637.601199973433, 20367.164484520472],
  ])('level %d, %i events: other software', (level, events, low, high) => {
    const rate = poissonRate(events, 1, { level });
    expect(Math.abs(rate.low - low)).toBeLessThan(1e-8 * Math.max(1, low));
    expect(Math.abs(rate.high - high)).toBeLessThan(1e-8 * Math.max(1, high));
  });

  test('none seen: the bound is where none has the chance left outside, −ln 0.025', () => {
    expect(poissonRate(0, 1).high).toBeCloseTo(-Math.log(0.025), 9);
    expect(poissonRate(0, 1).low).toBe(0);
  });

  test('so it is at the highest levels a number can hold', () => {
    const level = 1 - 1e-14;
    expect(poissonRate(0, 1, { level }).high).toBeCloseTo(-Math.log((1 - level) / 2), 9);
  });

  test('twice the exposure halves the rate and its bounds', () => {
    const { value, low, high } = poissonRate(7, 2.1);
    const half = poissonRate(7, 4.2);
    expect([half.value, half.low, half.high].map((x) => 2 * x)).toEqual([value, low, high]);
  });

  test('at the bounds the tails are what was left outside', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.double({ min: 0.5, max: 0.999, noNaN: true }),
        (events, level) => {
          const { low, high } = poissonRate(events, 1, { level });
          expect(poissonAtLeast(events, low)).toBeCloseTo((1 - level) / 2, 7);
          expect(poissonAtMost(events, high)).toBeCloseTo((1 - level) / 2, 7);
        },
      ),
      { seed: 20261125, numRuns: 100 },
    );
  });

  test.each([
    [-1, 1, 0.95],
    [1.5, 1, 0.95],
    [1, 0, 0.95],
    [1, Infinity, 0.95],
    [1, 1, 95],
    [1, 1, 1],
    [1, 1, 0],
    [1, 1, -0.5],
    [1, 1, Number.NaN],
  ])('%d events in %d at level %d is refused', (events, exposure, level) => {
    expect(() => poissonRate(events, exposure, { level })).toThrow(RangeError);
  });
});

describe('Poisson tails', () => {
  // scipy 1.17.1. Sums of a thousand logarithms: hence 1e-11, relative.
  test.each([
    [poissonAtMost(950, 1000), 0.057836292955323276],
    [poissonAtLeast(1101, 1000), 0.0008676409634435647],
    [poissonAtMost(3, 20), 0.000003203719780476998],
  ])('%d', (given, expected) => {
    expect(Math.abs(given / expected - 1)).toBeLessThan(1e-11);
  });

  test('all counts sum to 1, from above and from below', () => {
    for (const expected of [0.01, 1, 3.7, 40]) {
      for (const count of [0, 1, 5, 60]) {
        expect(poissonAtMost(count, expected) + poissonAtLeast(count + 1, expected)).toBeCloseTo(1, 13);
        const apart = poissonAtLeast(count, expected) - poissonAtLeast(count + 1, expected);
        expect(apart).toBeCloseTo(poissonExactly(count, expected), 13);
      }
    }
  });

  test('where nothing is expected nothing happens', () => {
    expect([poissonAtLeast(0, 0), poissonAtLeast(1, 0), poissonAtMost(0, 0), poissonExactly(0, 0)]).toEqual([
      1, 0, 1, 1,
    ]);
  });
});

describe("Wilson's bounds of a share", () => {
  // R. G. Newcombe (1998), the table of worked examples, Wilson's method without correction; printed to four decimals.
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i', (counted, all, low, high) => {
    const share = wilsonShare(counted, all);
    expect(share.value).toBe(counted / all);
    expect(Math.abs(share.low - low)).toBeLessThan(0.000051);
    expect(Math.abs(share.high - high)).toBeLessThan(0.000051);
  });

  // 2 of 4 with z² = 4 (level 0.9545): middle (2 + 2)/(4 + 4) = 1/2, reach √(4·(2·2/4 + 1))/8 = √8/8.
  test('by hand', () => {
    const { low, high } = wilsonShare(2, 4, { level: 0.9544997361036416 });
    expect(low).toBeCloseTo(0.5 - Math.SQRT2 / 4, 12);
    expect(high).toBeCloseTo(0.5 + Math.SQRT2 / 4, 12);
  });

  test('the bounds hold the share and stay within 0 to 1; the rest has the mirrored ones', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 2000 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (all, part) => {
          const counted = Math.round(all * part);
          const { value, low, high } = wilsonShare(counted, all);
          const rest = wilsonShare(all - counted, all);
          expect(low).toBeGreaterThanOrEqual(0);
          expect(low).toBeLessThanOrEqual(value);
          expect(high).toBeGreaterThanOrEqual(value);
          expect(high).toBeLessThanOrEqual(1);
          expect(rest.low).toBeCloseTo(1 - high, 12);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });

  test('outward from a share that is no whole count, and from one that is but for rounding', () => {
    const bounds = (low: number, high: number) => boundsOutward({ low, high }, 10, 0.95);
    const wilson = (low: number, high: number) => ({
      low: wilsonShare(low, 10).low,
      high: wilsonShare(high, 10).high,
    });
    expect(bounds(0.25, 0.55)).toEqual(wilson(2, 6));
    expect(bounds(0.3 - 1e-9, 0.7 + 1e-9)).toEqual(wilson(3, 7));
    expect(bounds(0, 1)).toEqual(wilson(0, 10));
    expect(boundsOutward({ low: 0.2, high: 0.3 }, 0, 0.95)).toEqual({ low: 0, high: 1 });
  });

  test.each([
    [3, 2],
    [-1, 2],
    [0, 0],
    [0.5, 2],
  ])('%d of %d is refused', (counted, all) => {
    expect(() => wilsonShare(counted, all)).toThrow(RangeError);
  });
});
