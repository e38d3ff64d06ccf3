import { nearestWord } from '../casefile/nearest-word.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { WrongUse } from './exit-code.js';

/** What the user named: a farm where one was said, and an animal in any of her names. */
export interface NamedCase {
  readonly farm?: string;
  readonly animal: string;
}

/**
 * A farm and an animal out of `FARM/ANIMAL`, with `/` or `\`; a path to her file, as a shell completes it, says the same.
 * @example namedCase('quernholt/2086') // → { farm: 'quernholt', animal: '2086' }
 * @example namedCase('cases\\quernholt\\2086.md') // → { farm: 'quernholt', animal: '2086' }
 * @example namedCase('2086') // → { animal: '2086' }
 */
export function namedCase(written: string): NamedCase {
  const parts = written
    .trim()
    .split(/[\\/]+/)
    .filter((part) => part !== '' && part !== '.');
  const animal = (parts.at(-1) ?? '').replace(/\.md$/i, '');
  const farm = parts.at(-2);
  return { animal, ...(farm === undefined ? {} : { farm }) };
}

export interface FoundCase {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
  /** Other files that bear the number asked for. */
  readonly others: readonly string[];
}

/**
 * The case of an animal by the name of her file, her number on the farm, her official tag or her electronic number.
 *
 * Her file's name goes before a number: two cows in turn can bear the same number.
 *
 * Error:   WrongUse where none is meant, with the nearest name, or where several are
 * Checked: tests/cli/case.test.ts
 */
export function findCase(farms: readonly FarmRecord[], { animal }: NamedCase): FoundCase {
  const all = farms.flatMap((farm) => farm.cases.map((record) => ({ farm, record })));
  const named = all.filter(({ record }) => namesOf(record).some((name) => bare(name) === bare(animal)));
  const byFile = named.filter(({ record }) => record.slug === animal);
  const [found, ...others] = byFile.length > 0 ? byFile : named;
  if (!found) throw new WrongUse(noSuchAnimal(animal, all));
  if (others.length > 0)
    throw new WrongUse(`\`${animal}\` is more than one animal: name one of ${listed([found, ...others])}`);
  return {
    ...found,
    others: named.filter((one) => one !== found).map(placeOf),
  };
}

interface InFarm {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
}

function placeOf({ farm, record }: InFarm): string {
  return `${farm.slug}/${record.slug}`;
}

function listed(some: readonly InFarm[]): string {
  return some.map((one) => `\`${placeOf(one)}\``).join(', ');
}

function namesOf({ slug, animal }: CaseRecord): string[] {
  return [slug, animal.animal, animal.tag, animal.electronic].filter((name) => name !== undefined);
}

/** Tags are written with and without spaces, in either case. */
function bare(name: string): string {
  return name.toLowerCase().replaceAll(/[\s-]+/g, '');
}

function noSuchAnimal(animal: string, all: readonly InFarm[]): string {
  if (all.length === 0) return `there is no animal \`${animal}\` here: no case file was read`;
  const names = all.flatMap((one) => namesOf(one.record).map((name) => ({ name, one })));
  const near = nearestWord(
    animal,
    names.map(({ name }) => name),
  );
  const meant = names.find(({ name }) => name === near);
  return `there is no animal \`${animal}\` here: ${
    meant === undefined
      ? `expected her number, the name of her file or her official tag; there are ${all.length}, such as ${listed(all.slice(0, 3))}`
      : `did you mean \`${placeOf(meant.one)}\`${meant.name === meant.one.record.slug ? '' : ` (${meant.name})`}?`
  }`;
}
