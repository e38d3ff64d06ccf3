import type { Animal } from '../../record/animal.js';
import { codeOn } from '../../record/code-of-lesion.js';
import type { Found } from '../../record/found.js';
import type { Lesion, Mark } from '../../record/lesion.js';
import type { Visit } from '../../record/visit.js';
import type { LesionCode } from '../../record/words.js';

/** One entry of `found`: one lesion or mark at one visit. */
export interface Look<Declared> {
  readonly name: string;
  readonly declared: Declared;
  readonly visit: Visit;
  /** Position in `animal.visits`. */
  readonly visitAt: number;
  readonly found: Found;
  /** Where the entry stands in the file. */
  readonly path: readonly (string | number)[];
}

export interface LesionLook extends Look<Lesion> {
  /** The code it goes by at this visit. */
  readonly code: LesionCode;
}

/** Many checks ask for the same looks, so they are gathered once an animal. */
const gathered = new WeakMap<Animal, readonly LesionLook[]>();

/** Every look at a declared lesion, in the order of the visits. */
export function lesionLooks(animal: Animal): readonly LesionLook[] {
  const known = gathered.get(animal);
  if (known) return known;
  const all = looks(animal, animal.lesions, ({ name, declared, visitAt }) => ({
    code: codeOn(name, declared, animal.visits, visitAt),
  }));
  gathered.set(animal, all);
  return all;
}

/** Every look at a declared mark, in the order of the visits. */
export function markLooks(animal: Animal): Look<Mark>[] {
  return animal.marks ? looks(animal, animal.marks, () => ({})) : [];
}

function looks<Declared, More>(
  animal: Animal,
  declaredUnder: Readonly<Record<string, Declared>>,
  more: (look: Look<Declared>) => More,
): (Look<Declared> & More)[] {
  const all: (Look<Declared> & More)[] = [];
  for (const [visitAt, visit] of animal.visits.entries()) {
    for (const [name, found] of Object.entries(visit.found ?? {})) {
      const declared = Object.hasOwn(declaredUnder, name) ? declaredUnder[name] : undefined;
      if (!declared) continue;
      const look = { name, declared, visit, visitAt, found, path: ['visits', visitAt, 'found', name] };
      all.push(Object.assign(look, more(look)));
    }
  }
  return all;
}
