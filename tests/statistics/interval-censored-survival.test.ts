import { describe, expect, test } from 'vitest';
import { turnbullIntervals } from '../../src/statistics/turnbull-intervals.js';
import { intervalCensoredSurvival, npmleMasses, spanTable } from '../../src/statistics/npmle-masses.js';
import { interval } from '../../src/statistics/estimate.js';
import { seededRandom } from '../../src/statistics/seeded-random.js';

const fit = (...ends: [number, number][]): ReturnType<typeof intervalCensoredSurvival> =>
  intervalCensoredSurvival(ends.map(([after, by]) => interval(after, by)));

describe('six animals, by hand', () => {
  // Looked at on days 14, 28 and 42: two closed in (0, 14], one in (0, 28], one in (14, 28], one in (14, 42], one open on 42.
  // Starts and ends in order: (0 (0 (0 14] 14] (14 (14 28] 28] 42] (42 ∞]. Boxes (0, 14], (14, 28], (42, ∞].
  // With masses p, q, r: likelihood p² · (p + q) · q · q · r, for (14, 42] covers only the box (14, 28].
  // Slopes, all 6 at the best: 2/p + 1/(p+q) = 6, 1/(p+q) + 2/q = 6, 1/r = 6. So r = 1/6, p = q, and p + q = 5/6: 5/12 each.
  // Check: 2 · 12/5 + 6/5 = 6.
  test('masses 5/12, 5/12, 1/6', () => {
    const { support, logLikelihood } = fit([0, 14], [0, 14], [0, 28], [14, 28], [14, 42], [42, Infinity]);
    expect(support.map(({ after, by }) => [after, by])).toEqual([
      [0, 14],
      [14, 28],
      [42, Infinity],
    ]);
    [5 / 12, 5 / 12, 1 / 6].forEach((mass, k) => expect(support[k]!.mass).toBeCloseTo(mass, 12));
    expect(logLikelihood).toBeCloseTo(4 * Math.log(5 / 12) + Math.log(5 / 6) + Math.log(1 / 6), 12);
  });

  // (0, 4] (3, 7] (6, 9] (2, 8] (1, 5] (6, ∞]. In order: (0 (1 (2 (3 4] 5] (6 (6 7] 8] 9] ∞]. Boxes (3, 4] and (6, 7].
  // Only (3, 4]: two of them, (0, 4] and (1, 5]. Only (6, 7]: (6, 9] and (6, ∞]. Both: (3, 7] and (2, 8], which say nothing.
  // Likelihood p² q²: a half each.
  test('what covers every box says nothing', () => {
    const { support, logLikelihood } = fit([0, 4], [3, 7], [6, 9], [2, 8], [1, 5], [6, Infinity]);
    expect(support).toHaveLength(2);
    expect(support[0]).toMatchObject({ after: 3, by: 4 });
    expect(support[1]).toMatchObject({ after: 6, by: 7 });
    expect(support[0]!.mass).toBeCloseTo(0.5, 12);
    expect(logLikelihood).toBeCloseTo(-4 * Math.LN2, 12);
  });

  // 200 closed on a day of their own each: each day is a box, and by counting each has 1/200.
  test('however small a mass, it stays', () => {
    const { support } = fit(...Array.from({ length: 200 }, (_, day): [number, number] => [day, day + 1]));
    expect(support).toHaveLength(200);
    for (const { mass } of support) expect(mass).toBeCloseTo(1 / 200, 12);
  });

  // Two boxes with a third between them that the likelihood leaves empty:
  // (0, 1] × 2, (2, 3] once, (4, 5] × 2, and (0, 5] says nothing: 2/5, 1/5, 2/5 by counting.
  // Now (0, 3] and (2, 5] instead of (2, 3]: boxes stay (0, 1], (2, 3], (4, 5]; likelihood p² (p + q)(q + r) r², p = r.
  // With q = 1 − 2p: p⁴ (1 − p)², slope 4/p − 2/(1 − p) = 0 at p = 2/3 > 1/2, so q = 0 and p = r = 1/2.
  test('a box may stay empty', () => {
    const { support } = fit([0, 1], [0, 1], [0, 3], [2, 5], [4, 5], [4, 5]);
    expect(support.map(({ after }) => after)).toEqual([0, 4]);
    expect(support[0]!.mass).toBeCloseTo(0.5, 12);
  });
});

test('all cut off: everything comes after the last look, and that was certain', () => {
  expect(fit([2, Infinity], [7, Infinity], [4, Infinity])).toEqual({
    support: [{ after: 7, by: Infinity, mass: 1 }],
    logLikelihood: 0,
  });
});

test('one exact time holds all', () => {
  expect(fit([3, 3])).toEqual({ support: [{ after: 3, by: 3, mass: 1 }], logLikelihood: 0 });
});

test('refused: nothing at all, and what is no interval', () => {
  expect(() => intervalCensoredSurvival([])).toThrow(RangeError);
  expect(() => intervalCensoredSurvival([{ after: 2, by: 1 }])).toThrow(RangeError);
});

describe('sets that are hard on slow methods', () => {
  const { below } = seededRandom(11);
  const part = (): number => below(2 ** 32) / 2 ** 32;
  const many = (count: number, one: (k: number) => [number, number]) =>
    Array.from({ length: count }, (_, k) => interval(...one(k)));
  const sets = {
    'one look each': many(600, () => {
      const [event, look] = [-Math.log(1 - part()), -Math.log(1 - part())];
      return event <= look ? [0, look] : [look, Infinity];
    }),
    'wide and overlapping': many(600, () => {
      const ends = [part(), part()].sort((a, b) => a - b);
      return [ends[0]!, ends[1]!];
    }),
    'exact, cut off and between': many(600, (k) => {
      const event = -Math.log(1 - part());
      return k % 3 === 0
        ? [event, event]
        : k % 3 === 1
          ? [event / 2, Infinity]
          : [event * part(), event + part()];
    }),
    'each leans on the next': many(600, (k) => [k, k + 2]),
    'chains of several lengths': many(300, (k) => [k, k + 3 + (k % 7)]),
    'times from 1 to 100 000': many(600, () => {
      const after = Math.exp(11 * part());
      return [after, after * (1 + Math.exp(-6 * part()))];
    }),
  };

  // The slope bounds what likelihood is missing; that the bound itself is right is shown against other masses under laws.
  test.each(Object.entries(sets))('%s: short by no more than 1e-9', (_, set) => {
    const { boxes, spans } = turnbullIntervals(set);
    const { shortBy, masses, slope } = npmleMasses(spanTable(spans, boxes.length));
    expect(shortBy).toBeLessThanOrEqual(1e-9);
    masses.forEach((mass, box) => expect(Math.abs(mass * slope[box]!)).toBeLessThan(1e-8));
  });

  // (k, k + 2] for k = 0 … 2m − 1: boxes (k, k+1] between; every second box holds 1/m, and each interval covers just one.
  test('each leans on the next: the likelihood is that of m pairs', () => {
    expect(intervalCensoredSurvival(sets['each leans on the next']).logLikelihood).toBeCloseTo(
      600 * Math.log(1 / 300),
      8,
    );
  });
});
