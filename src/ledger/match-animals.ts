import type { Animal } from '../record/animal.js';
import { sameContent } from './same-content.js';
import type { SealedAnimal } from './sealed-animals.js';

/** One animal's file as it is now. */
export interface AnimalNow {
  readonly slug: string;
  readonly animal: Animal;
}

/**
 * Which file is which sealed animal's. Her file may have another name since, and she another number with the old one
 * under `earlier`; a cow that has her number now is told from her by the visits.
 *
 * Shape:   → the sealed animal of each file that has one, by its slug
 * Checked: tests/ledger/animals.test.ts
 */
export function matchAnimals(
  known: readonly SealedAnimal[],
  now: readonly AnimalNow[],
): ReadonlyMap<string, SealedAnimal> {
  const matched = new Map<string, SealedAnimal>();
  const bySlug = new Map(now.map((one) => [one.slug, one]));
  const wearing = byNumber(now);
  const unsure: { readonly sealed: SealedAnimal; readonly one: AnimalNow; readonly rank: number[] }[] = [];
  for (const sealed of known) {
    const likely = new Set([
      ...[...sealed.files].flatMap((file) => bySlug.get(file) ?? []),
      ...[...sealed.numbers].flatMap((number) => wearing.get(number) ?? []),
    ]);
    const [only] = likely;
    if (only && likely.size === 1 && only.slug === sealed.file && only.animal.animal === sealed.number)
      matched.set(only.slug, sealed);
    else
      for (const one of likely)
        unsure.push({ sealed, one, rank: [visitsOf(sealed, one), howNear(sealed, one)] });
  }
  unsure.sort((a, b) => b.rank[0]! - a.rank[0]! || b.rank[1]! - a.rank[1]!);
  const found = new Set(matched.values());
  for (const { sealed, one } of unsure)
    if (!found.has(sealed) && !matched.has(one.slug)) {
      matched.set(one.slug, sealed);
      found.add(sealed);
    }
  return matched;
}

/** The files of each number, whether it is borne now or was. */
function byNumber(now: readonly AnimalNow[]): Map<string, AnimalNow[]> {
  const wearing = new Map<string, AnimalNow[]>();
  for (const one of now) {
    const own = (one.animal.earlier ?? []).flatMap(({ animal }) => animal ?? []);
    for (const number of new Set([one.animal.animal, ...own]))
      wearing.set(number, [...(wearing.get(number) ?? []), one]);
  }
  return wearing;
}

/** How many of her sealed visits stand in a file as they were sealed. */
function visitsOf({ records }: SealedAnimal, { animal }: AnimalNow): number {
  return records.filter(({ first, last }) => {
    if (first.kind !== 'visit' || !last) return false;
    return animal.visits.some(
      ({ photos: _photos, ...visit }) => visit.date === last.on && sameContent(visit, last.content),
    );
  }).length;
}

function howNear({ file, number, numbers }: SealedAnimal, { slug, animal }: AnimalNow): number {
  if (slug === file && animal.animal === number) return 4;
  if (number !== undefined && animal.earlier?.some((one) => one.animal === number) === true) return 3;
  return numbers.has(animal.animal) ? 2 : 1;
}
