import { describe, expect, test } from 'vitest';
import { type ForecastEntry, forecastEntries } from '../../src/growth/when-out.js';
import { growingConditions } from '../../src/growth/growth-line.js';
import { growthOfAnimal, publishedPrior } from '../../src/growth/growth-of-animal.js';
import { expectedGrowth, readGrowthCases } from './read-growth-case.js';

// Expected answers come from an independent solution that does not filter but solves all readings at once;
// they are rounded to six decimals (days: four), hence the tolerances.
const millimetres = 1e-6;
const days = 0.01;

const farms = readGrowthCases();
const entries: ForecastEntry[] = farms.flatMap(({ slug: farm, farm: record, animals }) =>
  animals.flatMap(({ slug, animal }) =>
    forecastEntries(
      { farm, slug, animal },
      growthOfAnimal(animal, growingConditions(record), {
        today: expectedGrowth.today,
        prior: publishedPrior,
      }),
    ),
  ),
);

test('56 animals with 103 wall gaps are read, in the order of the answers', () => {
  expect(farms.flatMap(({ animals }) => animals)).toHaveLength(56);
  expect(entries.map(({ farm, animal, lesion }) => `${farm} ${animal} ${lesion}`)).toEqual(
    expectedGrowth.lesions.map(({ farm, animal, lesion }) => `${farm} ${animal} ${lesion}`),
  );
});

describe.each(expectedGrowth.lesions.map((expected, index) => ({ expected, entry: entries[index]! })))(
  '$expected.animal $expected.lesion',
  ({ expected, entry }) => {
    test('kinds and what was expected of each reading', () => {
      expect(entry.line).toBe(expected.line);
      expect(entry.readings.map(({ date, topMm, kind }) => ({ date, topMm, kind }))).toEqual(
        expected.readings.map(({ date, topMm, kind }) => ({ date, topMm, kind })),
      );
      for (const [index, reading] of expected.readings.entries()) {
        agree(entry.readings[index]!.expectedMm, reading.expectedMm, millimetres);
        agree(entry.readings[index]!.sdMm, reading.sdMm, millimetres);
        agree(entry.readings[index]!.z, reading.z, millimetres);
      }
    });

    test('her factor, the wall, the forecast or why there is none', () => {
      agree(entry.factor.mean, expected.factor.mean, millimetres);
      agree(entry.factor.variance, expected.factor.variance, millimetres);
      agree(entry.wallMm, expected.wallMm, millimetres);
      agree(entry.wallSdMm, expected.wallSdMm, millimetres);
      expect(entry.wallSource).toBe(expected.wallSource);
      expect(entry.why).toBe(expected.why);
      expect(entry.out === undefined).toBe(expected.why !== undefined);
      expect(entry.from).toBe(expected.from);
      expect(entry.ifSoundHornFollows).toBe(expected.ifSoundHornFollows);
      for (const end of ['early', 'best', 'late'] as const) {
        agree(entry.outAfterDays?.[end], expected.outAfterDays?.[end], days);
      }
      agree(entry.inSixWeeks?.mean, expected.inSixWeeks?.mean, millimetres);
      agree(entry.inSixWeeks?.variance, expected.inSixWeeks?.variance, millimetres);
      expect(entry.held?.since).toBe(expected.held?.since);
      agree(entry.held?.z, expected.held?.z, millimetres);
    });
  },
);

function agree(ours: number | null | undefined, theirs: number | null | undefined, within: number): void {
  if (typeof ours !== 'number' || typeof theirs !== 'number') expect(ours).toBe(theirs);
  else expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(within);
}
