import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { firstReach } from '../../src/statistics/first-reach.js';

const search = { from: 0, to: 100, step: 7 };
const wave = { at: (x: number) => Math.sin(x / 10), slope: (x: number) => Math.cos(x / 10) / 10 };

test('already there at the start', () => {
  expect(firstReach(wave, -0.5, search)).toBe(0);
});

test('the first of several crossings: sin(x/10) = 0.5 at 10·π/6', () => {
  expect(firstReach(wave, 0.5, search)).toBeCloseTo((10 * Math.PI) / 6, 8);
});

test('a level that is only touched on a peak between two steps: sin(x/10) = 0.9999999 just before 10·π/2', () => {
  expect(firstReach(wave, 0.9999999, search)).toBeCloseTo(10 * Math.asin(0.9999999), 5);
});

test('never reached', () => {
  expect(firstReach(wave, 1.0001, search)).toBeUndefined();
});

test('reached only at the end itself, and just beyond it', () => {
  const line = { at: (x: number) => x, slope: () => 1 };
  expect(firstReach(line, 100, search)).toBeCloseTo(100, 8);
  expect(firstReach(line, 100.01, search)).toBeUndefined();
});

// Rises towards a peak, dips, rises again: the walk in steps of a hundredth is the slow, sure way.
test('agrees with a walk in very small steps', () => {
  const drawn = fc.tuple(
    fc.double({ min: -0.02, max: 0.05, noNaN: true }),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.double({ min: 0, max: 6, noNaN: true }),
    fc.double({ min: -1, max: 2, noNaN: true }),
  );
  fc.assert(
    fc.property(drawn, ([rise, swing, phase, level]) => {
      const course = {
        at: (x: number) => rise * x + swing * Math.sin(x / 9 + phase),
        slope: (x: number) => rise + (swing / 9) * Math.cos(x / 9 + phase),
      };
      const found = firstReach(course, level, search);
      let walked: number | undefined;
      for (let k = 0; k <= 10_000 && walked === undefined; k++)
        if (course.at(k / 100) >= level) walked = k / 100;
      if (walked === undefined) expect(found === undefined || course.at(found) - level < 1e-6).toBe(true);
      else {
        expect(found).toBeDefined();
        expect(found!).toBeLessThanOrEqual(walked);
        // Earlier than the walk by more than its step only where the level was all but touched.
        if (walked - found! > 0.011) expect(course.at(found!) - level).toBeLessThan(1e-6);
      }
    }),
    { seed: 20261125, numRuns: 500 },
  );
});
