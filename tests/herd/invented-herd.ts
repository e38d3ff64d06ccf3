import type { Animal } from '../../src/record/animal.js';
import type { Farm } from '../../src/record/farm.js';
import type { Found, Visit } from '../../src/record/visit.js';
import type { FarmRecord } from '../../src/record/practice.js';
import { farmWith } from '../growth/invented-practice.js';

export { practiceOf } from '../growth/invented-practice.js';

export function visit(date: string, more: Partial<Visit> = {}): Visit {
  return { date, by: 'Orla Venn', kind: 'recheck', ...more };
}

/** A cow with one wall gap `a` on the outer claw of the left hind foot, unless the test says otherwise. */
export function cow(animal: string, visits: Visit[], more: Partial<Animal> = {}): Animal {
  return {
    casefile: 1,
    animal,
    lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } },
    visits,
    ...more,
  };
}

/** Looks at her gap `a`: `[day, state]`. */
export function looks(...seen: [string, Found['state'] & string][]): Visit[] {
  return seen.map(([date, state]) => visit(date, { found: { a: { state } } }));
}

/** A farm scored on 0 to 3, its animals filed under their own numbers. */
export function herd(slug: string, animals: readonly Animal[], farm: Partial<Farm> = {}): FarmRecord {
  return farmWith(slug, Object.fromEntries(animals.map((one) => [one.animal, one])), {
    'gait-scale': 'uk-0-3',
    ...farm,
  });
}
