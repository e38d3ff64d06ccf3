import { CORE_SCHEMA, load } from 'js-yaml';
import { checkAnimal } from '../../src/casefile/check/check-animal.js';
import type { AnimalCheckContext } from '../../src/casefile/check/check-context.js';
import { animal, type Animal } from '../../src/record/animal.js';

const context: AnimalCheckContext = {
  today: '2026-11-25',
  farmSlug: 'quernholt',
  animalSlug: '2086',
  farm: { farm: 'Quernholt', 'gait-scale': 'uk-0-3', 'condition-scale': 'uk-1-5' },
  picture: () => ({ kind: 'jpeg' }),
};

/** An animal from the keys of its file that matter, the others filled in. */
export function animalOf(keys: string): Animal {
  const written = load(keys, { schema: CORE_SCHEMA }) as object;
  return animal.parse({ casefile: 1, animal: '2086', lesions: {}, visits: [], ...written });
}

/** What is said of an animal, as `severity id`, without `record/`. */
export function findingsOf(keys: string, change: Partial<AnimalCheckContext> = {}): string[] {
  return checkAnimal(animalOf(keys), { ...context, ...change }).map(
    ({ severity, id }) => `${severity} ${id.replace('record/', '')}`,
  );
}
