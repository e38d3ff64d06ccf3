import type { Animal } from '../record/animal.js';
import { messageWords } from '../reference/words.js';
import { nearestWord } from './nearest-word.js';

/** An animal by all she may be called: the name of her file, and what her record bears. */
export interface CalledAnimal {
  readonly slug: string;
  readonly animal: Pick<Animal, 'animal' | 'tag' | 'electronic' | 'earlier'>;
}

/** Whom a name means. `meant`: one, or several where it cannot be determined; `others` bear it too and give way. */
export interface AnimalMeant<T> {
  readonly meant: readonly T[];
  readonly others: readonly T[];
}

/**
 * The animals a name may mean: by the name of the file, her number on the farm, her official tag or her electronic
 * number.
 *
 * Her file's name goes before a number: two cows in turn can bear the same number.
 *
 * Checked: tests/cli/case.test.ts, tests/cli/keeping.test.ts
 */
export function animalMeant<T extends CalledAnimal>(all: readonly T[], name: string): AnimalMeant<T> {
  const named = all.filter((one) => namesOf(one).some((other) => bare(other) === bare(name)));
  const byFile = named.filter(({ slug }) => slug === name);
  const meant = byFile.length > 0 ? byFile : named;
  return { meant, others: named.filter((one) => !meant.includes(one)) };
}

/** Who may have been meant where nobody is: who bore the number before, else the nearest name; with the name it was. */
export function animalNear<T extends CalledAnimal>(
  all: readonly T[],
  name: string,
): { readonly near: T; readonly because: string } | undefined {
  const before = all.find(({ animal: { earlier = [] } }) => earlier.some((one) => one.animal === name));
  if (before) return { near: before, because: messageWords().say('place.formerly', { name }) };
  const names = all.flatMap((one) => namesOf(one).map((called) => ({ called, one })));
  const word = nearestWord(
    name,
    names.map(({ called }) => called),
  );
  const meant = names.find(({ called }) => called === word);
  return meant && { near: meant.one, because: meant.called === meant.one.slug ? '' : meant.called };
}

function namesOf({ slug, animal }: CalledAnimal): string[] {
  return [slug, animal.animal, animal.tag, animal.electronic].filter((name) => name !== undefined);
}

/** Tags are written with and without spaces, in either case. */
function bare(name: string): string {
  return name.toLowerCase().replaceAll(/[\s-]+/g, '');
}
