import type { CaseFiles } from '../../casefile/case-files.js';
import type { PictureOfVisit } from '../../keep/with-pictures.js';
import type { Photo } from '../../record/visit.js';
import { bytesOf } from '../../keep/kept-file.js';

/** What is wrong with a picture named at the terminal: neither a file of this computer nor one in the farm's folder. */
export function pictureTrouble(files: CaseFiles, farmFolder: string, file: string): string | undefined {
  return [file, `${farmFolder}/${file}`].some((path) => files.look(path)?.kind === 'file')
    ? undefined
    : `there is no file ${file}, expected a picture of this computer, or one in the farm's folder such as photos/2086.jpg`;
}

/**
 * Pictures named with a visit, parted: those that lie in the farm's folder stay as they are, others are to be copied.
 */
export function apart(
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
