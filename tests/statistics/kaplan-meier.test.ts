import { describe, expect, test } from 'vitest';
import { interval } from '../../src/statistics/estimate.js';
import { kaplanMeier } from '../../src/statistics/kaplan-meier.js';

const at = (time: number) => interval(time, time);
const past = (time: number) => interval(time, Infinity);

describe('six animals, by hand', () => {
  // Events on 1, 2, 2, 5; last looks on 2 and 3.
  //   day 1: 6 at risk, 1 event.  S = 5/6
  //   day 2: 5 at risk (the last look on 2 still counts), 2 events.  S = 5/6 · 3/5 = 1/2
  //   day 5: 1 at risk, 1 event.  S = 0
  // Greenwood on day 2: S² · (1/(6·5) + 2/(5·3)) = 1/4 · (1/30 + 4/30) = 1/24.
  const curve = kaplanMeier([at(2), past(2), at(1), past(3), at(5), at(2)]);

  test('at risk, events, survival', () => {
    expect(curve.steps.map(({ time, atRisk, events }) => [time, atRisk, events])).toEqual([
      [1, 6, 1],
      [2, 5, 2],
      [5, 1, 1],
    ]);
    [5 / 6, 1 / 2, 0].forEach((share, k) => expect(curve.steps[k]!.survival).toBeCloseTo(share, 14));
  });

  test("Greenwood's variance and the summed hazard", () => {
    expect(curve.steps[0]!.variance).toBeCloseTo(25 / 36 / 30, 14);
    expect(curve.steps[1]!.variance).toBeCloseTo(1 / 24, 14);
    expect(curve.steps[2]!.cumulativeHazard).toBeCloseTo(1 / 6 + 2 / 5 + 1, 14);
  });

  // On day 2 log S = −ln 2, its error √(1/6); on log(−log) the error is √(1/6)/ln 2 = 0.58897.
  // With 1.959964 · 0.58897 = 1.15436: S to the power e^±1.15436 = 3.17199 and 0.31526.
  test('log-log bounds', () => {
    expect(curve.steps[1]!.bounds!.low).toBeCloseTo(0.5 ** 3.17199, 4);
    expect(curve.steps[1]!.bounds!.high).toBeCloseTo(0.5 ** 0.31526, 4);
  });

  test('nobody left: survival 0, no variance, no bounds', () => {
    expect(curve.steps[2]).toMatchObject({ survival: 0, variance: 0, bounds: undefined });
  });

  // The lower bound is below a half from day 1 on: error √(1/30)/ln 1.2 = 1.00138, so (5/6) to the power e^1.9627 = 0.27.
  test('just a half counts as halved, and an upper bound never reached is Infinity', () => {
    expect(curve.median.time).toBe(2);
    expect(curve.median.low).toBe(1);
    expect(curve.median.high).toBe(Infinity);
    expect(curve.lastSeen).toBe(5);
  });
});

test('all cut off: no step, no median', () => {
  expect(kaplanMeier([past(3), past(8)])).toEqual({
    steps: [],
    median: { time: Infinity, low: Infinity, high: Infinity },
    lastSeen: 8,
  });
});

test('all at once: one step to nothing', () => {
  const { steps, median } = kaplanMeier([at(4), at(4)]);
  expect(steps.map(({ survival }) => survival)).toEqual([0]);
  expect(median).toEqual({ time: 4, low: Infinity, high: Infinity });
});

test('a higher level has wider bounds about the same curve', () => {
  const times = [at(1), at(2), at(3), past(4)];
  const [narrow, wide] = [0.8, 0.99].map((level) => kaplanMeier(times, { level }).steps[1]!);
  expect(narrow!.survival).toBe(wide!.survival);
  expect(wide!.bounds!.low).toBeLessThan(narrow!.bounds!.low);
  expect(wide!.bounds!.high).toBeGreaterThan(narrow!.bounds!.high);
});

test('refused: an interval between two looks, nothing at all, a level in per cent', () => {
  expect(() => kaplanMeier([interval(2, 4)])).toThrow('use intervalCensoredSurvival');
  expect(() => kaplanMeier([])).toThrow(RangeError);
  expect(() => kaplanMeier([at(1)], { level: 95 })).toThrow(RangeError);
});
