import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import {
  added,
  priorFrom,
  publishedMean,
  sheSays,
  whatSheTeaches,
} from '../../src/growth/learning/priors-for.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { digestOf } from '../../src/herd/farm-digest.js';
import { healedGaps, scoredGaps, trackRecord } from '../../src/growth/track-record/track-record.js';
import { readingsToTry } from '../../src/growth/worth-measuring/worth-measuring.js';
import { animalWith, growthOf, noSeason, top, visit } from '../growth/invented-animal.js';
import { farmWith, practiceOf } from '../growth/invented-practice.js';

const settings = { seed: 20261125, numRuns: 60 };

/** A cow with two to five readings, whatever they show, healed at the end or not. */
const cow = fc
  .record({
    steps: fc.array(
      fc.record({ after: fc.integer({ min: 10, max: 60 }), mm: fc.integer({ min: 1, max: 40 }) }),
      {
        minLength: 2,
        maxLength: 5,
      },
    ),
    healed: fc.boolean(),
  })
  .map(({ steps, healed }): Animal => {
    let date = '2024-02-01';
    const visits = steps.map(({ after, mm }) => visit((date = addDays(date, after)), { a: top(mm) }));
    if (healed) visits.push(visit(addDays(date, 90), { a: { state: 'healed' } }));
    return animalWith(visits);
  });
const herd = fc.array(cow, { minLength: 2, maxLength: 8 });

const farmsOf = (cows: readonly Animal[]) => {
  const named = cows.map((animal, at): [string, Animal] => [`c${at}`, { ...animal, animal: `${at}` }]);
  return [
    farmWith('harrowmere', Object.fromEntries(named.slice(0, 2))),
    farmWith('quernholt', Object.fromEntries(named.slice(2))),
  ];
};

test('the order in which farms and files come changes nothing, to the last bit', () => {
  fc.assert(
    fc.property(herd, (cows) => {
      const farms = farmsOf(cows);
      const backwards = farms.map((farm) => ({ ...farm, cases: farm.cases.toReversed() })).toReversed();
      const [ours, theirs] = [farms, backwards].map(
        (order) => pooledOn(practiceOf(...order), '2026-11-25').priors,
      );
      expect(theirs!.learned).toEqual(ours!.learned);
      for (const { slug, cases } of farms)
        for (const one of cases)
          expect(theirs!.priorOf(slug, one.slug)).toEqual(ours!.priorOf(slug, one.slug));
    }),
    settings,
  );
});

test('a cow is held to what the others teach: the same as if she were not on file', () => {
  fc.assert(
    fc.property(herd, (cows) => {
      const farms = farmsOf(cows);
      const { priorOf } = pooledOn(practiceOf(...farms), '2026-11-25').priors;
      const [first, ...others] = farms[0]!.cases;
      const without = pooledOn(practiceOf({ ...farms[0]!, cases: others }, farms[1]!), '2026-11-25').priors;
      expect(priorOf('harrowmere', first!.slug).mean).toBeCloseTo(without.learned.mean, 12);
      expect(priorOf('harrowmere', first!.slug).variance).toBeCloseTo(
        without.priorOf('harrowmere', first!.slug).variance,
        12,
      );
    }),
    settings,
  );
});

test('what a cow teaches, held to again under any prior, gives what that prior would have made of her', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 16, max: 26 }),
      fc.double({ min: 0.8, max: 1.2, noNaN: true }),
      (mm, mean) => {
        const animal = animalWith([visit('2026-01-01', { a: top(10) }), visit('2026-03-03', { a: top(mm) })]);
        const lesson = whatSheTeaches(growthOf(animal).factor)!;
        const prior = { mean, variance: 0.03 };
        const weight = 1 / prior.variance + lesson.weight;
        const expected = (mean / prior.variance + lesson.factor * lesson.weight) / weight;
        // 61 days on the heel: ρτ = 12.0246, rest of the variance 11.1651 (tests/hand-worked/learning.test.ts).
        const gain = (12.024640657 * 0.03) / (12.024640657 ** 2 * 0.03 + 11.165082951);
        expect(expected).toBeCloseTo(mean + gain * (mm - 10 - 12.024640657 * mean), 8);
      },
    ),
    settings,
  );
});

test('a cow whose readings may be off by metres teaches nothing; each cow more makes the mean surer', () => {
  expect(whatSheTeaches({ mean: 3, variance: publishedPrior.variance * (1 - 1e-9) })).toBeUndefined();
  const vague = added(publishedMean, sheSays({ factor: 5, weight: 1e-5 }));
  expect(priorFrom(vague).mean).toBeCloseTo(1, 5);
  let sum = publishedMean;
  for (let cows = 0; cows < 50; cows++) {
    const next = added(sum, sheSays({ factor: 0.8, weight: 20 }));
    expect(priorFrom(next).variance).toBeLessThan(priorFrom(sum).variance);
    sum = next;
  }
  expect(priorFrom(sum).mean).toBeLessThan(0.85);
});

const shifted = (animal: Animal, days: number): Animal => ({
  ...animal,
  visits: animal.visits.map((one) => ({ ...one, date: addDays(one.date, days) })),
});

test('without season, shifting every date leaves the track record as it is', () => {
  fc.assert(
    fc.property(herd, fc.integer({ min: -400, max: 4000 }), (cows, days) => {
      const [ours, theirs] = [0, days].map((by) => {
        const farms = farmsOf(cows.map((animal) => shifted(animal, by)));
        return trackRecord(farms.map((farm) => digestOf(farm, addDays('2026-11-25', by))));
      });
      const scores = ({ gaps }: NonNullable<typeof ours>) => gaps.map((gap) => gap.scores);
      expect(scores(theirs!)).toEqual(scores(ours!));
      expect(theirs!.forecasts).toBe(ours!.forecasts);
    }),
    settings,
  );
});

test('a share lies between 0 and 1, an error between 0 and five years', () => {
  fc.assert(
    fc.property(herd, (cows) => {
      const today = '2026-11-25';
      const gaps = cows.flatMap((animal) => {
        const healed = healedGaps(animal, today);
        return scoredGaps(animal, noSeason, today).map((gap, at) => ({ ...healed[at]!, ...gap }));
      });
      for (const { scores, withoutForecast, forecastOn } of gaps) {
        expect(scores.length + withoutForecast).toBe(forecastOn.length);
        for (const { inRange, errorDays } of scores) {
          expect(inRange).toBeGreaterThanOrEqual(0);
          expect(inRange).toBeLessThanOrEqual(1);
          expect(errorDays).toBeGreaterThanOrEqual(0);
          expect(errorDays).toBeLessThanOrEqual(1826);
        }
      }
    }),
    settings,
  );
});

test('whatever the story, no reading makes a date less sure, and a calliper no less sure than a ruler', () => {
  fc.assert(
    fc.property(cow, (animal) => {
      const last = animal.visits.at(-1)!.date;
      const options = { today: last, prior: publishedPrior };
      const tried = readingsToTry(animal, noSeason, options, { next: addDays(last, 28) }).map(
        ({ reading }) => reading,
      );
      for (const { what, tool, nowWeeks, thenWeeks } of tried) {
        if (what !== 'wall') expect(thenWeeks).toBeLessThanOrEqual(nowWeeks + 1e-9);
        const finer = tried.find((one) => one.what === what && one.tool === 'calliper')!;
        if (tool === 'ruler') expect(finer.thenWeeks).toBeLessThanOrEqual(thenWeeks + 1e-9);
      }
    }),
    settings,
  );
});
