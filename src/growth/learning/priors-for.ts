import { z } from 'zod';
import { growthNumbers } from '../../reference/growth-numbers.js';
import { publishedPrior } from '../growth-of-animal.js';
import type { Prior } from '../what-is-known.js';
import { type CalendarDay, addDays } from '../../record/calendar-day.js';
import type { Animal } from '../../record/animal.js';
import { animalNames, type FilesOfFarm, nameOfFile } from '../../record/same-animal.js';
import { followAnimal } from '../follow-animal.js';
import type { GrowingConditions } from '../growth-line.js';

/** What one cow's own readings say of her growth factor, nothing assumed: where it lies, and with what weight. */
export const lesson = z.strictObject({
  /** Times the reference rate. */
  factor: z.number(),
  /** 1 / variance. */
  weight: z.number().positive(),
});
type Lesson = Readonly<z.infer<typeof lesson>>;

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

/** What several files of one cow teach together: their weights add. Undefined where none of them teaches. */
function together(lessons: readonly (Lesson | undefined)[]): Lesson | undefined {
  const known = lessons.filter((one) => one !== undefined);
  const weight = known.reduce((sum, one) => sum + one.weight, 0);
  const weighted = known.reduce((sum, one) => sum + one.weight * one.factor, 0);
  return weight > 0 ? { factor: weighted / weight, weight } : undefined;
}

/** The mean growth factor of such cows as far as it is known: weights, and factors by weight, summed. */
type MeanOfCows = Readonly<{ weight: number; weighted: number }>;

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

/**
 * The day as of which other cows teach: the last day of the calendar quarter before `today`.
 *
 * Why this way: a farmer's dates do not wander from day to day with other farms' cows.
 *
 * Valid:   on the last day of a quarter it is still the quarter before
 * Checked: tests/growth/learning.test.ts
 * @example quarterEnd('2026-11-25') // → '2026-09-30'
 */
export function quarterEnd(today: CalendarDay): CalendarDay {
  const [year, month] = today.split('-');
  const monthsBefore = (Number(month) - 1) % 3;
  const begun = String(Number(month) - monthsBefore).padStart(2, '0');
  return addDays([year, begun, '01'].join('-'), -1);
}

/** What the cases on file have taught of growth: the mean factor of such cows, 80 %, and from how many cows. */
export interface WhatItLearned {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly cows: number;
  /** The day up to which visits count. */
  readonly upTo: CalendarDay;
}

/** What is held of each cow beforehand. */
export interface Priors {
  /** By farm and file; all cows but herself have taught it. A file not among them is a new cow: all have. */
  readonly priorOf: (farm: string, slug: string) => Prior;
  readonly learned: WhatItLearned;
}

const nothing: MeanOfCows = { weight: 0, weighted: 0 };

/**
 * Learns from all cows on file what to hold of each before her own readings: all farms count whatever
 * farm is built, and no cow teaches herself.
 *
 * The sums without each cow are the sums before her and after her, in a fixed order: nothing is
 * subtracted, and the order in which files come does not matter.
 *
 * Shape:   what each file on every farm taught up to a day, the day → a prior for each file, and what was learned
 * Valid:   two files of one cow count as one, with both files' readings
 * Checked: tests/hand-worked/learning.test.ts, tests/growth/learning.test.ts, tests/laws/learning-laws.test.ts
 * @example priorsFor([], '2026-09-30').learned.cows // → 0
 */
export function priorsFor(
  farms: readonly FilesOfFarm<{ readonly lesson?: Lesson | undefined }>[],
  upTo: CalendarDay,
): Priors {
  const cows = filesOfOneCow(farms);
  const lessons = cows.map((files) => together(files.map(({ held }) => held.lesson)));
  const says = lessons.map((hers) => (hers === undefined ? nothing : sheSays(hers)));
  const before: MeanOfCows[] = [];
  let sum = publishedMean;
  for (const one of says) {
    before.push(sum);
    sum = added(sum, one);
  }
  const cowsIn = lessons.filter((hers) => hers !== undefined).length;
  const everyone = learnedPrior(sum, cowsIn, upTo);
  const priors = new Map<string, Prior>();
  let after = nothing;
  for (const [index, files] of [...cows.entries()].reverse()) {
    const others = cowsIn - (lessons[index] === undefined ? 0 : 1);
    const prior = learnedPrior(added(before[index]!, after), others, upTo);
    for (const file of files) priors.set(nameOfFile(file), prior);
    after = added(says[index]!, after);
  }
  const half = growthNumbers.forecast.rangeSds.value / Math.sqrt(sum.weight);
  return {
    priorOf: (farm, slug) => priors.get(nameOfFile({ farm, slug })) ?? everyone,
    learned: {
      mean: everyone.mean,
      low: everyone.mean - half,
      high: everyone.mean + half,
      cows: cowsIn,
      upTo,
    },
  };
}

function learnedPrior(said: MeanOfCows, cows: number, upTo: CalendarDay): Prior {
  return { ...priorFrom(said), ...(cows > 0 ? { learnedFrom: { cows, upTo } } : {}) };
}

/** What her readings up to a day teach, followed under the published prior whatever other cows have taught since. */
export function lessonOf(
  animal: Animal,
  conditions: GrowingConditions,
  today: CalendarDay,
): Lesson | undefined {
  return whatSheTeaches(followAnimal(animal, conditions, { today, prior: publishedPrior }).followed.factor);
}

/**
 * Puts the files of one cow together: two files of one cow are not two cows.
 *
 * Shape:   all files → groups, each of one cow, sorted by farm and file whatever order they came in
 * Checked: tests/growth/learning.test.ts
 */
export function filesOfOneCow<Held>(farms: readonly FilesOfFarm<Held>[]) {
  const nameOf = animalNames(farms);
  const files = farms
    .flatMap(({ slug: farm, cases }) => cases.map((held) => ({ farm, slug: held.slug, held })))
    .sort((a, b) => (nameOfFile(a) < nameOfFile(b) ? -1 : 1));
  const groups = new Map<string, typeof files>();
  for (const file of files) groups.set(nameOf(file), [...(groups.get(nameOf(file)) ?? []), file]);
  return [...groups.values()];
}
