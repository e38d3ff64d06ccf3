import { animalMeant, animalNear, type CalledAnimal } from '../casefile/animal-meant.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { WrongUse } from './exit-code.js';
import { given } from '../record/given.js';

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
  return { animal, ...given({ farm }) };
}

export interface FoundCase {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
  /** Other files that bear the number asked for. */
  readonly others: readonly string[];
}

/**
 * The case of an animal by any of her names.
 *
 * Error:   WrongUse where none is meant, with the nearest name, or where several are
 * Checked: tests/cli/case.test.ts
 */
export function findCase(farms: readonly FarmRecord[], { animal: name }: NamedCase): FoundCase {
  const all = farms.flatMap((farm) =>
    farm.cases.map((record) => ({ farm, record, slug: record.slug, animal: record.animal })),
  );
  const { meant, others } = animalMeant(all, name);
  const [found] = meant;
  if (!found) throw new WrongUse(noSuchAnimal(name, all));
  if (meant.length > 1)
    throw new WrongUse(`\`${name}\` is more than one animal: name one of ${listed(meant)}`);
  return { farm: found.farm, record: found.record, others: others.map(placeOf) };
}

interface InFarm extends CalledAnimal {
  readonly farm: FarmRecord;
}

function placeOf({ farm, slug }: InFarm): string {
  return `${farm.slug}/${slug}`;
}

function listed(some: readonly InFarm[]): string {
  return some.map((one) => `\`${placeOf(one)}\``).join(', ');
}

function noSuchAnimal(name: string, all: readonly InFarm[]): string {
  if (all.length === 0) return `there is no animal \`${name}\` here: no case file was read`;
  const found = animalNear(all, name);
  return `there is no animal \`${name}\` here: ${
    found === undefined
      ? `expected her number, the name of her file or her official tag; there are ${all.length}, such as ${listed(all.slice(0, 3))}`
      : `did you mean \`${placeOf(found.near)}\`${found.because === '' ? '' : ` (${found.because})`}?`
  }`;
}
