import { z } from 'zod';
import { growthNumbers } from '../../reference/growth-numbers.js';
import { publishedPrior } from '../growth-of-animal.js';
import type { Prior } from '../what-is-known.js';

/** What one cow's own readings say of her growth factor, nothing assumed: where it lies, and with what weight. */
export const lesson = z.strictObject({
  /** Times the reference rate. */
  factor: z.number(),
  /** 1 / variance. */
  weight: z.number().positive(),
});
export type Lesson = Readonly<z.infer<typeof lesson>>;

/**
 * Takes the prior out of what was made of a cow, so that what is left is what her own readings taught.
 *
 * Valid:   worked out under the published prior; undefined where her readings taught nothing
 * Source:  two normal distributions multiplied: weights add, means add by weight; shared/growth.json `learning.countsFrom`
 * Checked: tests/hand-worked/learning.test.ts
 */
export function whatSheTeaches(after: Prior): Lesson | undefined {
  const before = 1 / publishedPrior.variance;
  const weight = 1 / after.variance - before;
  if (weight <= growthNumbers.learning.countsFrom.value) return undefined;
  return { factor: (after.mean / after.variance - before * publishedPrior.mean) / weight, weight };
}

/**
 * What several files of one cow teach together: their weights add.
 *
 * Valid:   undefined where none of them teaches
 */
export function together(lessons: readonly (Lesson | undefined)[]): Lesson | undefined {
  let weight = 0;
  let weighted = 0;
  for (const one of lessons) {
    if (one === undefined) continue;
    weight += one.weight;
    weighted += one.weight * one.factor;
  }
  return weight > 0 ? { factor: weighted / weight, weight } : undefined;
}

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
