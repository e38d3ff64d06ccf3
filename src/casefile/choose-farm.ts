import { problemIn } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import { sortProblems } from '../problem/format-problem.js';
import type { FarmRecord } from '../record/practice.js';
import { nearestWord } from './nearest-word.js';
import type { PracticeReading } from './read-practice.js';

/** What a command works on: the farms to be built, and what is to be said of them. The practice stays whole. */
export interface FarmsChosen extends Omit<PracticeReading, 'parts'> {
  /** Only the farms asked for that read without an error. */
  readonly farms: readonly FarmRecord[];
}

/**
 * Picks one farm of what was read; without a name, all.
 *
 * Why apart from reading: a farmer's dates must not hang on which farm is built, and all farms teach them. What is
 * wrong with another farm is neither said nor in the way: a farm that was refused only does not teach. What is wrong
 * with the cases folder or with `business.md` is said whichever farm is asked for.
 *
 * Error:   a name that no farm has is the problem `folder/no-such-farm`
 * Checked: tests/casefile/read-practice.test.ts
 */
export function chooseFarm(reading: PracticeReading, slug: string | undefined): FarmsChosen {
  const { parts, ...whole } = reading;
  const { practice } = whole;
  if (slug === undefined) return { ...whole, farms: practice.farms };
  const { folder, common, farms } = parts;
  const own = farms.filter((farm) => farm.slug === slug);
  const unknown =
    folder !== undefined && own.length === 0 ? [noSuchFarm(folder, slug, whole.farmsFound)] : [];
  return {
    practice,
    farms: practice.farms.filter((farm) => farm.slug === slug),
    problems: sortProblems([...common.problems, ...unknown, ...own.flatMap(({ problems }) => problems)]),
    filesRead: common.filesRead + (own[0]?.filesRead ?? 0),
    keyOf: whole.keyOf,
    sealsOf: whole.sealsOf,
    farmsFound: own.map((farm) => farm.slug),
    farmsRefused: whole.farmsRefused.filter((refused) => refused === slug),
  };
}

function noSuchFarm(folder: string, farm: string, slugs: readonly string[]): Problem {
  const meant = nearestWord(farm, slugs);
  const values = { farm, farms: slugs.map((slug) => `\`${slug}\``).join(', ') };
  if (meant !== undefined)
    return problemIn(folder, 'folder/no-such-farm', { ...values, meant }, { way: 'meant' });
  return problemIn(folder, 'folder/no-such-farm', values, slugs.length === 0 ? { way: 'no-farm' } : {});
}
