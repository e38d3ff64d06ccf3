import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { wayDown, whenOut } from '../../src/growth/when-out.js';
import type { Departure } from '../../src/growth/what-is-known.js';
import { normalCdf } from '../../src/statistics/normal.js';
import { grazedNorth, noSeason } from './invented-animal.js';

/** Evenly spread, not drawn to the ends. */
const between = (low: number, high: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((part) => low + ((high - low) * part) / 1_000_000);

// All that a departure may be, ties of either sign included: |covariance| stays below the product of the SDs.
const departure: fc.Arbitrary<Departure> = fc
  .record({
    mm: between(0, 60),
    mmSd: between(0.3, 9),
    rate: between(-0.5, 8),
    rateSd: between(0.2, 1.8),
    tie: between(-0.95, 0.95),
  })
  .map(({ mm, mmSd, rate, rateSd, tie }) => ({
    mm,
    mmVariance: mmSd ** 2,
    rate,
    rateVariance: rateSd ** 2,
    mmWithRate: tie * mmSd * rateSd,
    referenceRate: 6,
  }));
const wall = fc.record({
  mm: between(30, 80),
  sdMm: between(1, 10),
});
const conditions = fc.constantFrom(noSeason, grazedNorth);
const start = fc.integer({ min: 20_000, max: 20_400 });

test('how fast the chance rises is the slope of the chance', () => {
  fc.assert(
    fc.property(
      departure,
      wall,
      conditions,
      start,
      fc.integer({ min: 1, max: 1800 }),
      (from, length, farm, day, days) => {
        const way = wayDown(day, from, length, farm);
        const slope = (way.pastGround(days + 0.01) - way.pastGround(days - 0.01)) / 0.02;
        expect(Math.abs(way.pastGroundPerDay(days) - slope)).toBeLessThan(1e-6);
      },
    ),
  );
});

test('at the days given the chance of being out is 10, 50 and 90 %, and never was before', () => {
  let reached = 0;
  fc.assert(
    fc.property(departure, wall, conditions, start, (from, length, farm, day) => {
      const way = wayDown(day, from, length, farm);
      const { days } = whenOut([way]);
      const chances = Array.from({ length: 1827 }, (_, k) => normalCdf(way.pastGround(k)));
      for (const [end, chance] of [
        ['early', 0.1],
        ['best', 0.5],
        ['late', 0.9],
      ] as const) {
        const at = days[end];
        const walked = chances.findIndex((one) => one >= chance);
        if (at === null) expect(walked).toBe(-1);
        else {
          reached++;
          if (at > 0) expect(normalCdf(way.pastGround(at))).toBeCloseTo(chance, 7);
          else expect(normalCdf(way.pastGround(0))).toBeGreaterThanOrEqual(chance);
          expect(walked === -1 ? Infinity : walked).toBeGreaterThanOrEqual(at);
          expect(chances.slice(0, Math.ceil(at)).every((one) => one < chance)).toBe(true);
        }
      }
    }),
    { seed: 20261125, numRuns: 300 },
  );
  expect(reached).toBeGreaterThan(300);
});

// Just past the wall's length, at a rate known so badly that its doubt soon outgrows what is gained: the chance of being
// out touches 90 % after a few days, falls back and never comes there again. The first moment counts.
test('the chance may fall back again: the first moment it is reached counts', () => {
  const from: Departure = {
    mm: 43.2,
    mmVariance: 0.5,
    rate: 1,
    rateVariance: 2.56,
    mmWithRate: 0,
    referenceRate: 6,
  };
  const way = wayDown(20_600, from, { mm: 42, sdMm: Math.SQRT1_2 }, noSeason);
  const { days } = whenOut([way]);
  const chance = (day: number) => normalCdf(way.pastGround(day));
  expect(chance(0)).toBeLessThan(0.9);
  expect(days.late!).toBeGreaterThan(0);
  expect(days.late!).toBeLessThan(14);
  expect(chance(days.late!)).toBeCloseTo(0.9, 9);
  const later = Array.from({ length: 1812 }, (_, k) => chance(k + 14));
  expect(Math.max(...later)).toBeLessThan(0.9);
});

test('out already: no day is waited for', () => {
  const from: Departure = {
    mm: 60,
    mmVariance: 1,
    rate: 6,
    rateVariance: 0.2,
    mmWithRate: 0,
    referenceRate: 6,
  };
  expect(whenOut([wayDown(20_000, from, { mm: 42, sdMm: 2 }, noSeason)])).toMatchObject({
    days: { early: 0, best: 0, late: 0 },
    out: { early: '2024-10-04', best: '2024-10-04', late: '2024-10-04' },
  });
});

const onlyWallDoubted = (rate: number): Departure => ({
  mm: 0,
  mmVariance: 1,
  rate,
  rateVariance: 0,
  mmWithRate: 0,
  referenceRate: 1,
});

// The mean is out after so many days exactly when the rate is (wall − top) / days.
const bestAtRateFor = (days: number) => {
  const departure42mm = onlyWallDoubted((42 * 30.4375) / days);
  return whenOut([wayDown(20_000, departure42mm, { mm: 42, sdMm: 1 }, noSeason)]).days.best;
};

test('five years is the last day; a day more is none', () => {
  expect(bestAtRateFor(1825.9)).toBeCloseTo(1825.9, 6);
  expect(bestAtRateFor(1826.1)).toBeNull();
});
