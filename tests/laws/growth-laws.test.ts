import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { Found } from '../../src/record/visit.js';
import { type ForecastEntry, forecastEntries } from '../../src/growth/when-out.js';
import type { GrowingConditions, GrowthLine } from '../../src/growth/growth-line.js';
import { WhatIsKnown } from '../../src/growth/what-is-known.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { animalWith, gap, grazedNorth, growthOf, noSeason, top, visit } from '../growth/invented-animal.js';
import { expectedGrowth, readGrowthCases } from '../growth/read-growth-case.js';

const settings = { seed: 20261125, numRuns: 100 };

const lesions: Animal['lesions'] = {
  a: gap,
  b: { ...gap, foot: 'RF', line: 'dorsal' },
  c: { ...gap, claw: 'inner', line: 'axial' },
};

/** Any story at all: lengths that grow, jump, stand and are not reached. Each lesion is read on days of its own. */
const story = fc
  .array(
    fc.record({
      lesion: fc.constantFrom('a', 'b', 'c'),
      after: fc.integer({ min: 3, max: 70 }),
      mm: fc.integer({ min: 0, max: 45 }),
      tool: fc.constantFrom('calliper', 'ruler', 'photo', 'eye'),
      by: fc.constantFrom('Orla Venn', 'Fenn Arkwell'),
      more: fc.constantFrom<Found>(
        {},
        {},
        {},
        {},
        { 'ran-up': true },
        { 'opened-further': true },
        { 'top-found': 'higher' },
      ),
    }),
    { minLength: 1, maxLength: 9 },
  )
  .map((steps) => {
    let date = '2024-02-01';
    const visits = steps.map(({ lesion, after, mm, tool, by, more }) => {
      date = addDays(date, after);
      return visit(date, { [lesion]: top(mm, { tool, ...more }) }, { by });
    });
    return animalWith(visits, { lesions, calvings: ['2022-03-01', '2024-03-15'] });
  });

const entriesOf = (
  animal: Animal,
  conditions: GrowingConditions = noSeason,
  today = '2040-01-01',
): ForecastEntry[] =>
  forecastEntries({ farm: 'quernholt', slug: '2086', animal }, growthOf(animal, today, conditions));

function shifted(animal: Animal, days: number): Animal {
  return {
    ...animal,
    calvings: animal.calvings!.map((day) => addDays(day, days)),
    visits: animal.visits.map((one) => ({ ...one, date: addDays(one.date, days) })),
  };
}

function shiftedBack(entries: readonly ForecastEntry[], days: number): unknown {
  return JSON.parse(JSON.stringify(entries), (_, value: unknown) =>
    typeof value === 'string' && /^\d{4}-\d\d-\d\d$/.test(value) ? addDays(value, -days) : value,
  );
}

test('without season, shifting every date shifts every date and nothing else', () => {
  fc.assert(
    fc.property(story, fc.integer({ min: -400, max: 4000 }), (animal, days) => {
      expect(shiftedBack(entriesOf(shifted(animal, days)), days)).toEqual(
        JSON.parse(JSON.stringify(entriesOf(animal))),
      );
    }),
    settings,
  );
});

// 1461 days are four years to the day of 365.25: the season is back where it was, up to rounding of the sine.
test('with season, shifting by four years changes nothing; by half a year it does', () => {
  let moved = 0;
  fc.assert(
    fc.property(story, (animal) => {
      const plain = entriesOf(animal, grazedNorth);
      const later = entriesOf(shifted(animal, 1461), grazedNorth);
      expect(later.map(({ why, readings }) => [why, readings.map(({ kind }) => kind)])).toEqual(
        plain.map(({ why, readings }) => [why, readings.map(({ kind }) => kind)]),
      );
      for (const [index, entry] of plain.entries()) {
        expect(later[index]!.factor.mean).toBeCloseTo(entry.factor.mean, 9);
        const [before, after] = [entry.outAfterDays?.best, later[index]!.outAfterDays?.best];
        if (typeof before === 'number') expect(after).toBeCloseTo(before, 5);
      }
      if (entriesOf(shifted(animal, 183), grazedNorth)[0]!.factor.mean !== plain[0]!.factor.mean) moved++;
    }),
    settings,
  );
  expect(moved).toBeGreaterThan(20);
});

test('the order in which lesions are declared does not matter where they are read on different days', () => {
  fc.assert(
    fc.property(story, fc.shuffledSubarray(['a', 'b', 'c'], { minLength: 3 }), (animal, order) => {
      const reordered = {
        ...animal,
        lesions: Object.fromEntries(order.map((name) => [name, lesions[name]!])),
      };
      const [ours, theirs] = [entriesOf(animal), entriesOf(reordered)];
      expect(theirs.map(({ lesion, why }) => [lesion, why])).toEqual(
        ours.map(({ lesion, why }) => [lesion, why]),
      );
      for (const [index, entry] of ours.entries()) {
        expect(theirs[index]!.factor.mean).toBeCloseTo(entry.factor.mean, 10);
        const best = entry.outAfterDays?.best;
        if (typeof best === 'number') expect(theirs[index]!.outAfterDays!.best).toBeCloseTo(best, 6);
      }
    }),
    settings,
  );
});

test('left and right are alike; a tape is a ruler', () => {
  fc.assert(
    fc.property(story, (animal) => {
      const other = JSON.parse(
        JSON.stringify(animal)
          .replaceAll('"LH"', '"RH"')
          .replaceAll('"RF"', '"LF"')
          .replaceAll('"ruler"', '"tape"'),
      ) as Animal;
      expect(entriesOf(other)).toEqual(entriesOf(animal));
    }),
    settings,
  );
});

test('every range is in order, every reading has a kind, every gap a date or a reason', () => {
  fc.assert(
    fc.property(story, (animal) => {
      for (const { outAfterDays, out, why, readings, factor } of entriesOf(animal)) {
        expect(
          readings.every(({ kind, z }) => kind.length > 0 && (z === undefined || Number.isFinite(z))),
        ).toBe(true);
        expect(factor.variance).toBeGreaterThan(0);
        expect(factor.variance).toBeLessThanOrEqual(publishedPrior.variance + 1e-12);
        expect(outAfterDays === undefined).toBe(why !== undefined && why !== 'by-eye');
        expect(out === undefined).toBe(why !== undefined);
        const { early, best, late } = outAfterDays ?? { early: 0, best: 0, late: 0 };
        expect(early ?? Infinity).toBeLessThanOrEqual(best ?? Infinity);
        expect(best ?? Infinity).toBeLessThanOrEqual(late ?? Infinity);
      }
    }),
    settings,
  );
});

test('what is written after a day does not change what was known on it', () => {
  fc.assert(
    fc.property(story, fc.nat(), (animal, pick) => {
      const known = animal.visits[pick % animal.visits.length]!.date;
      const cut = { ...animal, visits: animal.visits.filter(({ date }) => date <= known) };
      expect(entriesOf(animal, noSeason, known)).toEqual(entriesOf(cut, noSeason, known));
    }),
    settings,
  );
});

test('a reading that may be off by ten kilometres changes nothing', () => {
  const line: GrowthLine = { name: 'a', of: 'gap', rate: 6, deviation: 0.13, readings: [] };
  const [without, withIt] = [0, 1].map(() => new WhatIsKnown([line], publishedPrior));
  for (const known of [without!, withIt!]) {
    known.start(0, 10, 2);
    known.take(0, { months: 2, days: 61 }, 20, 2);
  }
  const [before, after] = [
    withIt!.departure(0),
    (withIt!.take(0, { months: 0, days: 0 }, 90, 1e7), withIt!.departure(0)),
  ];
  expect(after.mm).toBeCloseTo(before.mm, 9);
  expect(after.rate).toBeCloseTo(before.rate, 9);
  expect(after.rateVariance).toBeCloseTo(before.rateVariance, 9);
  expect(withIt!.factor().mean).toBeCloseTo(without!.factor().mean, 9);
});

test('lengths, errors and rates in other units: the same in those units, and the same factor', () => {
  const followed = (unit: number) => {
    const line: GrowthLine = { name: 'a', of: 'gap', rate: 6 * unit, deviation: 0.13, readings: [] };
    const known = new WhatIsKnown([line, { ...line, rate: 5 * unit }], publishedPrior);
    known.start(0, 10 * unit, 2 * unit);
    known.start(1, 20 * unit, unit);
    known.take(0, { months: 2, days: 61 }, 24 * unit, 2 * unit);
    known.take(1, { months: 1.1, days: 33 }, 26 * unit, unit);
    return known;
  };
  const [mm, tenths] = [followed(1), followed(10)];
  expect(tenths.factor().mean).toBeCloseTo(mm.factor().mean, 12);
  expect(tenths.factor().variance).toBeCloseTo(mm.factor().variance, 12);
  for (const index of [0, 1]) {
    const [ours, theirs] = [mm.departure(index), tenths.departure(index)];
    expect(theirs.mm).toBeCloseTo(10 * ours.mm, 9);
    expect(theirs.mmVariance).toBeCloseTo(100 * ours.mmVariance, 9);
    expect(theirs.rate).toBeCloseTo(10 * ours.rate, 9);
  }
});

test('what is taken into a copy leaves the original as it was', () => {
  const line: GrowthLine = { name: 'a', of: 'gap', rate: 6, deviation: 0.13, readings: [] };
  const known = new WhatIsKnown([line], publishedPrior);
  known.start(0, 10, 2);
  const [before, copy] = [known.departure(0), known.copy()];
  expect(copy.departure(0)).toEqual(before);
  copy.take(0, { months: 2, days: 61 }, 30, 2);
  expect(known.departure(0)).toEqual(before);
  expect(copy.factor().mean).not.toBe(known.factor().mean);
});

const solve = (farms: ReturnType<typeof readGrowthCases>) =>
  farms
    .flatMap(({ slug: farm, animals }) =>
      animals.flatMap(({ slug, animal }) =>
        forecastEntries({ farm, slug, animal }, growthOf(animal, expectedGrowth.today)),
      ),
    )
    .sort((a, b) => `${a.farm} ${a.animal} ${a.lesion}`.localeCompare(`${b.farm} ${b.animal} ${b.lesion}`));

test('animals do not bear on one another: any order of farms and animals gives the same answers', () => {
  const farms = readGrowthCases();
  const backwards = farms.map((one) => ({ ...one, animals: one.animals.toReversed() })).toReversed();
  expect(solve(backwards)).toEqual(solve(farms));
});
