import type { Keeping } from '../../keep/change.js';
import { findFolder, openAnimal } from '../../keep/find-kept.js';
import { openKept } from '../../keep/kept-file.js';
import { business as businessSchema } from '../../record/business.js';
import { kindOfVisit } from '../../record/kind-of-visit.js';
import type { VisitKind } from '../../record/words.js';
import { WrongUse } from '../../run/exit-code.js';

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
  throw new WrongUse(
    'who was there is not said, expected --by NAME; with `trimmer` in business.md it need not be said (`growdown business` writes one)',
  );
}

/** Who works here, by `business.md`; undefined where there is none or it does not read. */
export function trimmerOf(keeping: Keeping): string | undefined {
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return undefined;
  const entry = { path: `${found.folder}/business.md`, shown: `${found.shown}/business.md` };
  if (!keeping.files.look(entry.path)) return undefined;
  const opened = openKept(keeping.files, entry, businessSchema, 'business');
  return opened.outcome === 'open' ? opened.kept.record.trimmer : undefined;
}
