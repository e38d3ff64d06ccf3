import { animalMeant } from '../../casefile/animal-meant.js';
import { findFolder, openAnimal, openBusiness, openKept } from '../../keep/kept-file.js';
import { animal as animalSchema } from '../../record/animal.js';
import type { Effects } from '../../run/effects.js';
import { WrongUse } from '../../run/exit-code.js';
import { namedCase } from '../../run/find-case.js';
import { farmAndAnimal, type KeepingOptions, keepingOf } from '../../run/write-change.js';
import type { Keeping } from '../../keep/change.js';
import { kindOfVisit } from '../../record/lifting.js';
import type { VisitKind } from '../../record/words.js';
import { terminal } from '../../problem/message.js';

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
      terminal('case.several-expected', {
        name: named,
        animals: meant.map(({ farm, slug }) => `\`${farm}/${slug}\``).join(', '),
      }),
    );
  return only ? { farm: only.farm, animal: only.slug } : farmAndAnimal(named);
}

/** Who was there and what kind of visit it was, where the flags do not say: the trimmer of `business.md`, and by the case. */
export function whoAndWhat(
  keeping: Keeping,
  farm: string,
  animal: string,
  said: Readonly<Record<string, unknown>>,
): { by: string; kind: VisitKind } {
  const opened = openAnimal(keeping, farm, animal);
  return {
    by: whoWasThere(keeping, said),
    kind: opened.outcome === 'open' ? kindOfVisit(opened.kept.record, String(said['date'])) : 'first',
  };
}

/** Who was there, as said, else the trimmer of `business.md`. */
export function whoWasThere(keeping: Keeping, said: Readonly<Record<string, unknown>>): string {
  const by = said['by'] ?? trimmerOf(keeping);
  if (typeof by === 'string') return by;
  throw new WrongUse(terminal('visit.no-by'));
}

/** Who works here, by `business.md`; undefined where there is none or it does not read. */
export function trimmerOf(keeping: Keeping): string | undefined {
  const opened = openBusiness(keeping);
  return opened.outcome === 'open' ? opened.kept.record.trimmer : undefined;
}
