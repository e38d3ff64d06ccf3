import type { CalendarDay } from '../../record/calendar-day.js';
import type { Practice, CaseRecord, FarmRecord } from '../../record/practice.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import { followAnimal } from '../follow-animal.js';
import { growingConditions } from '../growing-conditions.js';
import { publishedPrior } from '../growth-of-animal.js';
import type { Prior } from '../what-is-known.js';
import { archiveDay } from './archive-day.js';
import { type MeanOfCows, added, priorFrom, publishedMean, sheSays } from './mean-of-cows.js';
import { type Lesson, together, whatSheTeaches } from './what-she-teaches.js';
import type { Animal } from '../../record/animal.js';

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
export interface ArchivePriors {
  /** By farm and file; all cows but herself have taught it. A file not among them is a new cow: all have. */
  readonly priorOf: (farm: string, slug: string) => Prior;
  readonly learned: WhatItLearned;
}

const nothing: MeanOfCows = { weight: 0, weighted: 0 };

/**
 * Learns from all cows on file what to hold of each before her own readings: all farms count whatever
 * farm is built, and no cow teaches herself.
 *
 * Each cow is followed once under the published prior, as the archive stood at the end of the last quarter.
 * The sums without each cow are the sums before her and after her, in a fixed order: nothing is
 * subtracted, and the order in which files come does not matter.
 *
 * Shape:   everything the trimmer keeps, the day → a prior for each file, and what was learned
 * Valid:   two files of one cow count as one, with both files' readings
 * Checked: tests/hand-worked/learning.test.ts, tests/growth/learning.test.ts, tests/laws/learning-laws.test.ts
 * @example priorsFor({ farms: [] }, '2026-11-25').learned.cows // → 0
 */
export function priorsFor(practice: Pick<Practice, 'farms'>, today: CalendarDay): ArchivePriors {
  const upTo = archiveDay(today);
  const cows = filesOfOneCow(practice.farms);
  const lessons = cows.map((files) => together(files.map((file) => lessonOf(file, upTo))));
  const says = lessons.map((lesson) => (lesson === undefined ? nothing : sheSays(lesson)));
  const before: MeanOfCows[] = [];
  let sum = publishedMean;
  for (const one of says) {
    before.push(sum);
    sum = added(sum, one);
  }
  const cowsIn = lessons.filter((lesson) => lesson !== undefined).length;
  const everyone = learnedPrior(sum, cowsIn, upTo);
  const priors = new Map<string, Prior>();
  let after = nothing;
  for (const [index, files] of [...cows.entries()].reverse()) {
    const others = cowsIn - (lessons[index] === undefined ? 0 : 1);
    const prior = learnedPrior(added(before[index]!, after), others, upTo);
    for (const { farm, record } of files) priors.set(keyOf(farm.slug, record.slug), prior);
    after = added(says[index]!, after);
  }
  const half = growthNumbers.forecast.rangeSds.value / Math.sqrt(sum.weight);
  return {
    priorOf: (farm, slug) => priors.get(keyOf(farm, slug)) ?? everyone,
    learned: {
      mean: everyone.mean,
      low: everyone.mean - half,
      high: everyone.mean + half,
      cows: cowsIn,
      upTo,
    },
  };
}

function learnedPrior(mean: MeanOfCows, cows: number, upTo: CalendarDay): Prior {
  return { ...priorFrom(mean), ...(cows > 0 ? { learnedFrom: { cows, upTo } } : {}) };
}

function lessonOf({ farm, record }: FileOnFarm, today: CalendarDay): Lesson | undefined {
  const conditions = growingConditions(farm.farm);
  const { followed } = followAnimal(record.animal, conditions, { today, prior: publishedPrior });
  return whatSheTeaches(followed.factor);
}

function keyOf(farm: string, slug: string): string {
  return `${farm}/${slug}`;
}

/** A case file and the farm it lies in. */
interface FileOnFarm {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
}

/**
 * Puts the files of one cow together: she may have one on each farm she stood on.
 *
 * Why this way: two files of one cow are not two cows. They are hers where they bear the same official
 * tag or electronic number, or where one says under `earlier` which number on which farm she was. An earlier
 * number that fits several files, or one with another tag, settles nothing: those stay apart.
 *
 * Shape:   all files → groups, each of one cow, sorted by farm and file whatever order they came in
 * Checked: tests/growth/learning.test.ts
 */
export function filesOfOneCow(farms: readonly FarmRecord[]): readonly (readonly FileOnFarm[])[] {
  const files = farms
    .flatMap((farm) => farm.cases.map((record) => ({ farm, record })))
    .sort((a, b) => compare(a.farm.slug, b.farm.slug) || compare(a.record.slug, b.record.slug));
  const first = files.map((_, index) => index);
  const byIdentity = new Map<string, number>();
  const byNumber = new Map<string, number[]>();
  for (const [index, { farm, record }] of files.entries()) {
    for (const identity of identitiesOf(record.animal)) {
      join(first, index, byIdentity.get(identity) ?? index);
      byIdentity.set(identity, index);
    }
    const key = `${farm.slug} ${record.animal.animal}`;
    byNumber.set(key, [...(byNumber.get(key) ?? []), index]);
  }
  for (const [index, { farm, record }] of files.entries()) {
    for (const { animal: number = record.animal.animal, farm: on = farm.slug } of record.animal.earlier ??
      []) {
      const others = (byNumber.get(`${on} ${number}`) ?? []).filter((other) => other !== index);
      const [only] = others;
      if (only === undefined || others.length > 1) continue;
      if (!contradict(record.animal, files[only]!.record.animal)) join(first, index, only);
    }
  }
  const groups = new Map<number, FileOnFarm[]>();
  for (const [index, file] of files.entries()) {
    const group = groups.get(rootOf(first, index));
    if (group === undefined) groups.set(rootOf(first, index), [file]);
    else group.push(file);
  }
  return [...groups.values()];
}

function identitiesOf({ tag, electronic }: Animal): string[] {
  return [
    ...(tag === undefined ? [] : [`tag ${plain(tag)}`]),
    ...(electronic === undefined ? [] : [`electronic ${plain(electronic)}`]),
  ];
}

function contradict(one: Animal, other: Animal): boolean {
  return one.tag !== undefined && other.tag !== undefined && plain(one.tag) !== plain(other.tag);
}

function plain(mark: string): string {
  return mark.replace(/\s+/g, '').toUpperCase();
}

function rootOf(first: readonly number[], index: number): number {
  let root = index;
  while (first[root] !== root) root = first[root]!;
  return root;
}

function join(first: number[], one: number, other: number): void {
  const [a, b] = [rootOf(first, one), rootOf(first, other)];
  first[Math.max(a, b)] = Math.min(a, b);
}

function compare(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
