import { animalMeant } from '../../casefile/animal-meant.js';
import { findFolder } from '../../keep/find-kept.js';
import { openKept } from '../../keep/kept-file.js';
import { animal as animalSchema } from '../../record/animal.js';
import type { Effects } from '../../run/effects.js';
import { WrongUse } from '../../run/exit-code.js';
import { namedCase } from '../../run/find-case.js';
import { farmAndAnimal, type KeepingOptions, keepingOf } from '../../run/keeping-options.js';

/**
 * The farm and the animal a command is about: `FARM/ANIMAL`, or an animal alone where only one of all farms is called so.
 *
 * Error: WrongUse where none or several are meant; where a farm is said, whether it has her is for the command to tell
 */
export function animalNamed(
  named: string,
  options: KeepingOptions,
  effects: Effects,
): { readonly farm: string; readonly animal: string } {
  const said = namedCase(named);
  const found = said.farm === undefined ? findFolder(keepingOf(options, effects)) : undefined;
  if (found?.outcome !== 'found') return farmAndAnimal(named);
  const all = found.farms.flatMap(({ slug: farm, animals }) =>
    animals.flatMap(({ slug, entry }) => {
      const opened = openKept(effects.files, entry, animalSchema, 'animal');
      return opened.outcome === 'open' ? [{ farm, slug, animal: opened.kept.record }] : [];
    }),
  );
  const { meant } = animalMeant(all, said.animal);
  const [only] = meant;
  if (meant.length > 1)
    throw new WrongUse(
      `\`${named}\` is more than one animal, expected one of ${meant.map(({ farm, slug }) => `\`${farm}/${slug}\``).join(', ')}`,
    );
  return only ? { farm: only.farm, animal: only.slug } : farmAndAnimal(named);
}
