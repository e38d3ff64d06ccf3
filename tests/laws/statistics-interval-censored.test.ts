import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { turnbullIntervals } from '../../src/statistics/turnbull-intervals.js';
import {
  intervalCensoredSurvival,
  massLikelihood,
  npmleMasses,
  spanTable,
} from '../../src/statistics/npmle-masses.js';
import { type Interval, interval } from '../../src/statistics/estimate.js';
import { kaplanMeier } from '../../src/statistics/kaplan-meier.js';
import { logRankScores } from '../../src/statistics/permutation-test.js';
import { survivalAt } from '../statistics/survival-at.js';

const settings = { seed: 20261125, numRuns: 150 };

const time = fc.integer({ min: 0, max: 30 });
const exact = time.map((at) => interval(at, at));
const cutOff = time.map((after) => interval(after, Infinity));
const between = fc
  .tuple(time, fc.integer({ min: 1, max: 15 }))
  .map(([after, more]) => interval(after, after + more));
const any = fc.array(fc.oneof(exact, cutOff, between, between), { minLength: 1, maxLength: 30 });
const exactOrCutOff = fc.array(fc.oneof(exact, cutOff), { minLength: 1, maxLength: 30 });

const tableOf = (intervals: readonly Interval[]) => {
  const { boxes, spans } = turnbullIntervals(intervals);
  return spanTable(spans, boxes.length);
};

describe('the most likely curve', () => {
  test('masses are above 0 and sum to 1, boxes are in order and do not overlap', () => {
    fc.assert(
      fc.property(any, (intervals) => {
        const { support, logLikelihood } = intervalCensoredSurvival(intervals);
        expect(support.every(({ mass }) => mass > 0)).toBe(true);
        expect(support.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(1, 12);
        expect(support.slice(1).every(({ after }, k) => after >= support[k]!.by)).toBe(true);
        expect(logLikelihood).toBeLessThanOrEqual(0);
      }),
      settings,
    );
  });

  test('the likelihood said is that of the masses given', () => {
    fc.assert(
      fc.property(any, (intervals) => {
        const { support, logLikelihood } = intervalCensoredSurvival(intervals);
        const again = intervals.reduce((sum, { after, by }) => {
          const inside = support.filter((box) =>
            after === by
              ? box.after === after && box.by === by
              : box.by <= by && box.after >= after && !(box.after === box.by && box.by === after),
          );
          return sum + Math.log(inside.reduce((chance, { mass }) => chance + mass, 0));
        }, 0);
        expect(again).toBeCloseTo(logLikelihood, 8);
      }),
      settings,
    );
  });

  test('no other masses in the boxes are more likely, and none by more than the slope allows', () => {
    fc.assert(
      fc.property(
        any,
        fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 60, maxLength: 60 }),
        (intervals, weights) => {
          const table = tableOf(intervals);
          const best = npmleMasses(table);
          const sum = weights.slice(0, table.boxes).reduce((a, b) => a + b, 0);
          const other = Float64Array.from({ length: table.boxes }, (_, box) => weights[box]! / sum);
          const near = best.masses.map((mass, box) => 0.999 * mass + 0.001 * other[box]!);
          expect(best.shortBy).toBeLessThanOrEqual(1e-9);
          for (const masses of [other, near]) {
            const { logLikelihood, shortBy } = massLikelihood(table, masses);
            expect(logLikelihood).toBeLessThanOrEqual(best.logLikelihood + 1e-9);
            expect(best.logLikelihood).toBeLessThanOrEqual(logLikelihood + shortBy + 1e-9);
          }
        },
      ),
      settings,
    );
  });

  test('nor are masses put elsewhere: at random moments, each within the endpoint rule', () => {
    const moments = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(any, moments, (intervals, halves) => {
        const points = halves.map((half) => half / 2);
        const chances = intervals.map(({ after, by }) => {
          const held = points.filter((point) => (after === by ? point === by : point > after && point <= by));
          return held.length / points.length;
        });
        const elsewhere = chances.reduce((sum, chance) => sum + Math.log(chance), 0);
        expect(elsewhere).toBeLessThanOrEqual(intervalCensoredSurvival(intervals).logLikelihood + 1e-9);
      }),
      settings,
    );
  });

  test('the order of the input does not matter, to the last bit', () => {
    fc.assert(
      fc.property(
        any.chain((given) =>
          fc.tuple(fc.constant(given), fc.shuffledSubarray(given, { minLength: given.length })),
        ),
        ([given, shuffled]) => {
          expect(intervalCensoredSurvival(shuffled)).toEqual(intervalCensoredSurvival(given));
        },
      ),
      settings,
    );
  });

  test('scaling or shifting time does so to the boxes and leaves the masses, to the last bit', () => {
    fc.assert(
      fc.property(
        any,
        fc.constantFrom(0.001, 1 / 7, 24, 86_400),
        fc.constantFrom(-5, 0, 1000),
        (given, scale, shift) => {
          const moved = ({ after, by }: Interval): Interval =>
            interval(after * scale + shift, by * scale + shift);
          const { support, logLikelihood } = intervalCensoredSurvival(given);
          const other = intervalCensoredSurvival(given.map(moved));
          expect(other.support).toEqual(support.map((box) => ({ ...moved(box), mass: box.mass })));
          expect(other.logLikelihood).toBe(logLikelihood);
        },
      ),
      settings,
    );
  });

  // Masses need not be settled by the likelihood, so it is the chance of each interval that is compared.
  test('everything seen twice gives the same curve, and twice the log-likelihood', () => {
    fc.assert(
      fc.property(any, (given) => {
        const [once, twice] = [given, [...given, ...given]].map((set) => npmleMasses(tableOf(set)));
        once!.chances.forEach((chance, i) => expect(twice!.chances[i]).toBeCloseTo(chance, 6));
        expect(twice!.logLikelihood).toBeCloseTo(2 * once!.logLikelihood, 8);
      }),
      settings,
    );
  });

  test('exact and cut-off times give Kaplan and Meier', () => {
    fc.assert(
      fc.property(exactOrCutOff, (given) => {
        const { support } = intervalCensoredSurvival(given);
        for (const { time: at, survival } of kaplanMeier(given).steps) {
          const { low, high } = survivalAt(support, at);
          expect(high).toBeCloseTo(survival, 8);
          expect(low).toBeCloseTo(survival, 8);
        }
      }),
      settings,
    );
  });

  test('outside boxes the curve is known; it never rises', () => {
    fc.assert(
      fc.property(
        any,
        fc.array(fc.double({ min: -1, max: 50, noNaN: true }), { minLength: 2, maxLength: 10 }),
        (given, moments) => {
          const { support } = intervalCensoredSurvival(given);
          const bounds = moments
            .sort((a, b) => a - b)
            .map((moment) => {
              const read = survivalAt(support, moment);
              const inside = support.some(({ after, by }) => after < moment && moment < by);
              expect(read.high > read.low).toBe(inside);
              return read;
            });
          for (let k = 1; k < bounds.length; k++) {
            expect(bounds[k]!.low).toBeLessThanOrEqual(bounds[k - 1]!.low);
            expect(bounds[k]!.high).toBeLessThanOrEqual(bounds[k - 1]!.high);
          }
        },
      ),
      settings,
    );
  });

  // The sum is the slope of the likelihood towards a curve falling steadily faster: 0 at the best.
  test('log-rank scores sum to 0', () => {
    fc.assert(
      fc.property(any, (given) => {
        expect(logRankScores(given).reduce((sum, score) => sum + score, 0)).toBeCloseTo(0, 6);
      }),
      settings,
    );
  });
});

describe('Kaplan and Meier', () => {
  const shuffled = exactOrCutOff.chain((given) =>
    fc.tuple(fc.constant(given), fc.shuffledSubarray(given, { minLength: given.length })),
  );

  test('the order of the input does not matter; scaling time scales times and nothing else', () => {
    fc.assert(
      fc.property(shuffled, fc.constantFrom(0.125, 7, 24), ([given, other], scale) => {
        const curve = kaplanMeier(given);
        expect(kaplanMeier(other)).toEqual(curve);
        const scaled = kaplanMeier(given.map(({ after, by }) => interval(after * scale, by * scale)));
        expect(scaled.steps).toEqual(curve.steps.map((step) => ({ ...step, time: step.time * scale })));
        expect(scaled.median.time).toBe(curve.median.time * scale);
      }),
      settings,
    );
  });

  test('without anything cut off it is the share still waiting, with the binomial variance', () => {
    fc.assert(
      fc.property(fc.array(exact, { minLength: 1, maxLength: 30 }), (given) => {
        for (const { time: at, survival, variance } of kaplanMeier(given).steps) {
          const waiting = given.filter(({ after }) => after > at).length / given.length;
          expect(survival).toBeCloseTo(waiting, 12);
          expect(variance).toBeCloseTo((waiting * (1 - waiting)) / given.length, 12);
        }
      }),
      settings,
    );
  });

  test('bounds hold the curve on every scale', () => {
    fc.assert(
      fc.property(exactOrCutOff, fc.constantFrom('plain', 'log', 'log-log'), (given, errorScale) => {
        for (const { survival, bounds } of kaplanMeier(given, { errorScale }).steps) {
          if (!bounds) expect(survival).toBe(0);
          else {
            expect(bounds.low).toBeGreaterThanOrEqual(0);
            expect(bounds.low).toBeLessThanOrEqual(survival);
            expect(bounds.high).toBeGreaterThanOrEqual(survival);
            expect(bounds.high).toBeLessThanOrEqual(1);
          }
        }
      }),
      settings,
    );
  });
});
