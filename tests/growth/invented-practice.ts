import type { Animal } from '../../src/record/animal.js';
import type { Farm } from '../../src/record/farm.js';
import type { CaseRecord, FarmRecord, Practice } from '../../src/record/practice.js';

const source = { file: 'cases/made-up.md', placeOf: () => ({ line: 1, column: 1 }) };

/** A farm with its animals, each under a file name of its own; by default without a season. */
export function farmWith(
  slug: string,
  animals: Readonly<Record<string, Animal>>,
  farm: Partial<Farm> = {},
): FarmRecord {
  const cases = Object.entries(animals).map(([name, animal]): CaseRecord => ({
    slug: name,
    animal,
    narrative: '',
    source,
  }));
  return { slug, farm: { farm: slug, ...farm }, narrative: '', source, cases };
}

export function practiceOf(...farms: FarmRecord[]): Practice {
  return { business: {}, narrative: '', farms };
}
