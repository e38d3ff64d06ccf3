import { describe, expect, test } from 'vitest';
import { farmFigures } from '../../src/herd/farm-figures.js';
import { howGood } from '../../src/herd/pooled-on.js';
import { printed, printedMeanShare, printedShare, spreadOf } from '../../src/herd/printed-figure.js';
import { type CaseTime, timeToEvent } from '../../src/herd/time-to-event.js';
import { cow, herd, looks, visit } from './invented-herd.js';

describe('the rule', () => {
  test('bounds that span more than half the scale, and a figure of one animal, are not printed', () => {
    const told = { value: 0.5, low: 0.25, high: 0.75 };
    expect(printed(told, 13)).toBe(told);
    expect(printed({ ...told, high: 0.76 }, 13)).toBeUndefined();
    expect(printed({ ...told, high: 0.76 }, 13, 2)).toBeDefined();
    expect(printed(told, 2)).toBe(told);
    expect(printed(told, 1)).toBeUndefined();
    expect(printed(undefined, 13)).toBeUndefined();
  });

  // Wilson: 6 of 12 leaves 25.4 to 74.6 %, 5 of 11 21.3 to 72.0 %; none of 4 0 to 49.0 %, none of 3 0 to 56.1 %.
  test.each([
    [6, 12, true],
    [5, 11, false],
    [0, 4, true],
    [0, 3, false],
    [1, 1, false],
    [0, 0, false],
    [3, 2, false],
    [24, 205, true],
  ])('%i of %i: %s', (counted, of, isPrinted) => {
    expect(printedShare(counted, of) !== undefined).toBe(isPrinted);
  });

  test('a mean of shares is as sure as so many animals allow', () => {
    // 0.8 of 20 is 16 of 20: Wilson 0.584 to 0.919. 0.81 of 20 lies between 16 and 17 of 20: 0.584 to 0.948.
    expect(printedMeanShare(0.8, 20)!.low).toBeCloseTo(0.584, 3);
    expect(printedMeanShare(0.8, 20)!.high).toBeCloseTo(0.919, 3);
    expect(printedMeanShare(0.81, 20)!.low).toBeCloseTo(0.584, 3);
    expect(printedMeanShare(0.81, 20)!.high).toBeCloseTo(0.948, 3);
    expect(printedMeanShare(0.8, 9)).toBeUndefined();
    expect(printedMeanShare(Number.NaN, 0)).toBeUndefined();
  });

  test('a median is printed only where it says something; else each value', () => {
    const many = [2, 3, 3, 4, 4, 4, 5, 5, 6, 12];
    // Ten values: from the second to the ninth, 3 to 6, of 12.
    expect(spreadOf(many, 10)).toEqual({ each: many, median: { value: 4, low: 3, high: 6 } });
    expect(spreadOf(many, 1)).toEqual({ each: many });
    expect(spreadOf([7, 1, 2, 2], 4)).toEqual({ each: [1, 2, 2, 7] });
    // Six values: from the least to the most, 1 to 7 of 7.
    expect(spreadOf([7, 1, 2, 2, 3, 4], 6)!.median).toBeUndefined();
    expect(spreadOf([], 0)).toBeUndefined();
  });
});

/** So many cases, each of an animal of its own. */
const times = (...groups: [count: number, after: number, by: number][]): CaseTime[] =>
  groups
    .flatMap(([count, after, by]) => Array.from({ length: count }, () => ({ after, by })))
    .map((days, at) => ({ farm: 'quernholt', slug: `${at}`, animal: `${at}`, from: '2026-01-01', days }));

describe('shares by a day', () => {
  test('one cow of thirteen seen sound by day 7, three seen on it not to be: no share, and the cases are there to list', () => {
    const told = timeToEvent(times([1, 0, 7], [9, 0, Infinity], [3, 7, Infinity]));
    expect(told).toMatchObject({ count: 13, animals: 13, come: 1 });
    expect(told.curve).toBeUndefined();
    expect(told.cases).toHaveLength(13);
  });

  test('of enough the curve is reported as far as its bounds allow, and no further', () => {
    const enough = timeToEvent(times([8, 0, 14], [12, 14, 28], [20, 28, 42]));
    expect(enough.curve!.bounds.map(({ day }) => day)).toEqual([14, 28, 42]);
    for (const { lower, upper } of enough.curve!.bounds) expect(upper - lower).toBeLessThanOrEqual(0.5);
    // Five of 41 by day 14; of the others six were seen again, and three of those had come by day 60.
    const thin = timeToEvent(times([5, 0, 14], [30, 14, Infinity], [3, 14, 60], [3, 60, Infinity]));
    expect(thin.curve!.knownTo).toBe(14);
    expect(thin.curve!.boxes.map(({ by }) => by)).toEqual([14]);
  });

  test('half has come between days that are themselves sure enough, or nothing is said of half', () => {
    const steady = timeToEvent(times(...Array.from({ length: 8 }, (_, at): [number, number, number] => [6, 7 * at, 7 * (at + 1)]))); // prettier-ignore
    const { half, knownTo } = steady.curve!;
    // 24 of 48 by day 28; the bounds of 18 of 48 by day 21 and of 30 of 48 by day 35 hold a half or not.
    expect(half).toMatchObject({ after: 21, by: 28 });
    expect(half!.low).toBeGreaterThanOrEqual(14);
    expect(half!.high).toBeLessThanOrEqual(42);
    expect(half!.high - half!.low).toBeLessThanOrEqual(knownTo / 2);
    // Few have come when the curve ends: half is not reported.
    expect(timeToEvent(times([6, 0, 14], [30, 28, Infinity])).curve!.half).toBeUndefined();
  });
});

describe('the figures of a farm', () => {
  const wall = (foot: 'LH' | 'RH') => ({ code: 'WL', foot, claw: 'outer', line: 'heel' }) as const;
  const open = { state: 'open' } as const;

  test('a rate of two animals is printed with its bounds, one of a single animal is not', () => {
    const one = cow('1', [visit('2026-01-01', { found: { a: open, b: open } })], { lesions: { a: wall('LH'), b: wall('RH') } }); // prettier-ignore
    const ratesOf = (...animals: (typeof one)[]) => {
      const farm = herd('quernholt', animals, { herd: { cows: 200 } });
      return farmFigures(farm, '2026-12-31').rates!.all;
    };
    expect(ratesOf(one)).toMatchObject({ lesions: 2, counted: 2 });
    expect(ratesOf(one).per100).toBeUndefined();
    expect(ratesOf(one, cow('2', looks(['2026-02-01', 'open']))).per100!.value).toBeCloseTo(1.5, 2);
  });

  test('a rate whose bounds lie more than 50 per 100 cow-years apart is not reported either', () => {
    const animals = ['1', '2', '3'].map((number) => cow(number, looks(['2026-12-01', 'open'])));
    const rateIn = (cows: number) => {
      const farm = herd('quernholt', animals, { herd: { cows } });
      return farmFigures(farm, '2026-12-31').rates!.all.per100;
    };
    // 31 days of 200 cows, 17 cow-years: 3.6 to 51.6. Of 180 cows: 4.0 to 57.4.
    expect(rateIn(200)!.high).toBeCloseTo(51.6, 0);
    expect(rateIn(180)).toBeUndefined();
  });

  test('how good the dates were: a share of enough animals, and only counts of few or of one', () => {
    const gap = (slug: string, inRange: number, errorDays: number) => ({
      farm: 'quernholt', slug, lesion: 'a', after: '2026-01-01', by: '2026-02-01', leftOut: 0, withoutForecast: 0, restarted: false,
      scores: [{ inRange, errorDays }],
    }); // prettier-ignore
    const of = (count: number, name: (at: number) => string) =>
      howGood(Array.from({ length: count }, (_, at) => gap(name(at), at % 5 === 0 ? 0 : 1, 3 + (at % 4))));
    const many = of(20, String);
    expect(many.gaps).toBe(20);
    expect(many.inRange).toEqual(printedMeanShare(0.8, 20));
    expect(many.daysOff!.median!.value).toBe(4.5);
    expect(of(3, String).inRange).toBeUndefined();
    expect(of(20, () => '1')).toMatchObject({ gaps: 20 });
    expect(of(20, () => '1').inRange).toBeUndefined();
    expect(howGood([])).toEqual({ gaps: 0 });
    // Each gap counts once, however many dates it had: twelve of four dates (1, 0, 0, 0: a quarter) and twelve of one at three quarters are a half.
    const often = (at: number) => ({ ...gap(String(at), 0.75, 8), ...(at % 2 ? { scores: [1, 0, 0, 0].map((inRange) => ({ inRange, errorDays: 4 * inRange })) } : {}) }); // prettier-ignore
    const some = howGood(Array.from({ length: 24 }, (_, at) => often(at)));
    expect(some.inRange).toEqual(printedMeanShare(0.5, 24));
    expect(some.daysOff!.each).toEqual([...Array<number>(12).fill(1), ...Array<number>(12).fill(8)]);
  });
});
