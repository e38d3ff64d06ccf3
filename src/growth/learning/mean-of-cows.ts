import { growthNumbers } from '../../reference/growth-numbers.js';
import type { Prior } from '../what-is-known.js';
import type { Lesson } from './what-she-teaches.js';

/** The mean growth factor of such cows as far as it is known: weights, and factors by weight, summed. */
export interface MeanOfCows {
  readonly weight: number;
  readonly weighted: number;
}

const { between, ofMean, mean } = growthNumbers.cow;

/** What published numbers say of the mean, before any cow on file. */
export const publishedMean: MeanOfCows = {
  weight: 1 / ofMean.value ** 2,
  weighted: mean.value / ofMean.value ** 2,
};

/** What one cow says of the mean: less than of herself, since cows differ. */
export function sheSays({ factor, weight }: Lesson): MeanOfCows {
  const ofTheMean = 1 / (between.value ** 2 + 1 / weight);
  return { weight: ofTheMean, weighted: ofTheMean * factor };
}

/** Both together. */
export function added(one: MeanOfCows, other: MeanOfCows): MeanOfCows {
  return { weight: one.weight + other.weight, weighted: one.weighted + other.weighted };
}

/**
 * What is held of a cow's growth factor where the mean of such cows is known so far: how sure the mean
 * is, and how far a cow may lie off it.
 *
 * Source:  shared/growth.json `cow.between`
 * Checked: tests/hand-worked/learning.test.ts
 */
export function priorFrom({ weight, weighted }: MeanOfCows): Prior {
  return { mean: weighted / weight, variance: 1 / weight + between.value ** 2 };
}
