import type { Animal } from '../../record/animal.js';
import type { Visit } from '../../record/visit.js';
import { feet, type Foot, type Sign } from '../../record/words.js';

/** The signs written of a foot at a visit, its own and its lesions'; undefined where the visit says nothing of the foot. */
export function signsOnFoot(animal: Animal, visit: Visit, foot: Foot): ReadonlySet<Sign> | undefined {
  const own = visit.feet?.[foot];
  const found = Object.entries(visit.found ?? {}).filter(
    ([name, { lifted }]) => lifted !== false && animal.lesions[name]?.foot === foot,
  );
  const said = (own && own.lifted !== false) || found.length > 0 || (own?.signs?.length ?? 0) > 0;
  if (!said) return undefined;
  return new Set([...(own?.signs ?? []), ...found.flatMap(([, { signs }]) => signs ?? [])]);
}

/** Every foot the visit says something of, with its signs. */
export function feetWithSigns(animal: Animal, visit: Visit): readonly [Foot, ReadonlySet<Sign>][] {
  return feet.flatMap((foot): [Foot, ReadonlySet<Sign>][] => {
    const signs = signsOnFoot(animal, visit, foot);
    return signs ? [[foot, signs]] : [];
  });
}
