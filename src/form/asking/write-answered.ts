import { wantedBy } from '../../casefile/wanted.js';
import type { Keeping, Worked } from '../../keep/change.js';
import { findFarm } from '../../keep/find-kept.js';
import { inBlock } from '../../keep/text/write-value.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import { withPictures } from '../../keep/with-pictures.js';
import { animal as animalSchema } from '../../record/animal.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, exitCode } from '../../run/exit-code.js';
import { apart } from './pictures-asked.js';

/** Writes what was asked for; where that is refused, the answers are shown as her file would hold them, so that none is lost. */
export async function writeAnswered(
  answers: Readonly<Record<string, unknown>>,
  effects: Effects,
  write: () => Promise<ExitCode>,
): Promise<ExitCode> {
  let code: ExitCode | undefined;
  try {
    code = await write();
    return code;
  } finally {
    if (code !== exitCode.well) {
      const text = inBlock(answers, wantedBy(animalSchema), 0, { eol: '\n', step: 2 });
      effects.warn(
        `what was answered, as her file would hold it; put it right and into the file, or answer again:\n${text}\n`,
      );
    }
  }
}

/** A visit whose pictures lie anywhere on this computer: they are copied into the farm's folder with it. */
export function withPicturesAsked(
  keeping: Keeping,
  { farm, slug, visit }: { readonly farm: string; readonly slug: string; readonly visit: VisitDraft },
  work: (now: Keeping, whole: VisitDraft) => Worked,
): Worked {
  const { photos, ...rest } = visit;
  if (photos === undefined || photos.length === 0) return work(keeping, visit);
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const folder = found.farm.entry;
  const { there, toCopy } = apart(keeping.files, folder.path, photos);
  return withPictures(keeping, { folder, slug, date: visit.date }, toCopy, (now, copied) =>
    work(now, { ...rest, photos: [...there, ...copied] }),
  );
}
