import { terminal } from '../../problem/message.js';
import type { CaseFiles } from '../../casefile/source-text.js';
import { type PictureOfVisit, withPictures } from '../../keep/add-picture.js';
import type { Photo } from '../../record/visit.js';
import { bytesOf, findFarm } from '../../keep/kept-file.js';
import { wantedBy } from '../../casefile/wanted.js';
import type { Keeping, Worked } from '../../keep/change.js';
import { inBlock } from '../../keep/text/write-value.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import { animal as animalSchema } from '../../record/animal.js';
import type { AskingVisit } from './ask-visit.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, exitCode } from '../../run/exit-code.js';

/** What is wrong with a picture named at the terminal: neither a file of this computer nor one in the farm's folder. */
export function pictureTrouble(files: CaseFiles, farmFolder: string, file: string): string | undefined {
  return [file, `${farmFolder}/${file}`].some((path) => files.look(path)?.kind === 'file')
    ? undefined
    : terminal('asking.no-picture', { file });
}

/**
 * Pictures named with a visit, parted: those that lie in the farm's folder stay as they are, others are to be copied.
 */
function apart(
  files: CaseFiles,
  farmFolder: string,
  photos: readonly Photo[],
): { readonly there: readonly Photo[]; readonly toCopy: readonly PictureOfVisit[] } {
  const there = photos.filter(({ file }) => files.look(`${farmFolder}/${file}`)?.kind === 'file');
  const toCopy = photos
    .filter((photo) => !there.includes(photo))
    .flatMap(({ file, ...shows }): PictureOfVisit[] => {
      const bytes = bytesOf(files, file);
      return bytes ? [{ bytes, shows, called: file }] : [];
    });
  return { there, toCopy };
}

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
      effects.warn(`${terminal('asking.answered', { text: asWritten(answers) })}\n`);
    }
  }
}

/** What was answered, as her file would hold it. */
function asWritten(answers: Readonly<Record<string, unknown>>): string {
  return inBlock(answers, wantedBy(animalSchema), 0, { eol: '\n', step: 2 });
}

/** What answers come to: their text, and the errors they would bring, with paths from the visit or, of a lesion first met, from the animal. */
export function wouldBeOf(
  answers: Readonly<Record<string, unknown>>,
  worked: Worked,
): ReturnType<AskingVisit['wouldBe']> {
  const problems =
    worked.outcome === 'refused'
      ? worked.problems.filter(({ severity }) => severity === 'error')
      : worked.outcome === 'cannot'
        ? [worked]
        : [];
  return {
    text: asWritten(answers),
    errors: problems.map(({ message, ...problem }) => {
      const path = 'path' in problem ? (problem.path ?? []) : [];
      return { message, path: path[0] === 'visits' ? path.slice(2) : path };
    }),
  };
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
