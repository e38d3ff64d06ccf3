import type { Animal } from '../record/animal.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { AnimalGrowth, MarkGrowth } from './animal-growth.js';
import { caseForecast, gapGrowth } from './gap-growth.js';
import { type GrowthOptions, followAnimal } from './follow-animal.js';
import type { GrowingConditions } from './growth-line.js';
import { judgedReadings } from './wall-gaps.js';
import type { Prior } from './what-is-known.js';

/** What is held of any cow's growth before a reading, from published numbers alone. */
export const publishedPrior: Prior = {
  mean: growthNumbers.cow.mean.value,
  variance: growthNumbers.cow.ofMean.value ** 2 + growthNumbers.cow.between.value ** 2,
};

/**
 * Works out how the horn of one animal grows: what each reading shows, when each gap should be
 * out, what to expect at the next visit.
 *
 * Visits after `today` are passed over, so the same call tells what was known on an earlier day.
 *
 * Shape:   an animal's record, its farm's conditions → all her lines, solved together
 * Unit:    mm below the coronet, mm per month of 30.4375 days, days
 * Error:   none; a gap that allows no forecast says why
 * Source:  shared/growth.json
 * Checked: tests/growth/growth-cases.test.ts, tests/hand-worked/, tests/laws/
 */
export function growthOfAnimal(
  animal: Animal,
  conditions: GrowingConditions,
  options: GrowthOptions,
): AnimalGrowth {
  const { gaps, unplaced, marks, followed } = followAnimal(animal, conditions, options);
  const worked = gaps.map((gap, index) =>
    gapGrowth(animal, gap, followed.lines[index]!, conditions, options),
  );
  return {
    factor: followed.factor,
    prior: options.prior,
    lesions: worked.map(({ growth }) => growth),
    unplaced,
    marks: marks.map(([mark, { foot, claw, line }], index): MarkGrowth => {
      const own = followed.lines[gaps.length + index]!;
      return { mark, foot, claw, line, referenceMmPerMonth: own.line.rate, readings: judgedReadings(own) };
    }),
    case: caseForecast([
      ...worked.map(({ outlook }) => outlook),
      ...unplaced.map(({ lesion, why }) => ({ lesion, why, ifSoundHornFollows: false })),
    ]),
  };
}
