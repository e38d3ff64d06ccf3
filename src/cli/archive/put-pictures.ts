import type { ArchiveDisk } from '../../archive/archive-disk.js';
import { piecesOf } from '../../archive/bag/bag-files.js';
import type { BagWriter } from '../../archive/bag/bag-writer.js';
import { sha512Of } from '../../archive/bag/sha512-of.js';
import { withoutLocation } from '../../picture/location/without-location.js';
import type { FarmFile, LeftOut } from './farm-files.js';
import type { PictureListed } from './picture-list.js';

/** What putting pictures into an archive needs. */
export interface PuttingPictures {
  readonly disk: ArchiveDisk;
  /** The farm's folder on the disk. */
  readonly folder: string;
  /** The farm's folder in the archive, under `data/`. */
  readonly to: string;
  /** What each is called in the archive. */
  readonly names: ReadonlyMap<string, string>;
  readonly keepLocation: boolean;
  /** Films as they are, whatever they tell. */
  readonly clips: boolean;
}

const unsure = {
  picture:
    'it is not built as such a picture should be, so where it was taken could not be left out for sure; --keep-location puts it in as it is',
  clip: 'a film may tell where it was taken in places nobody can look; --clips puts films in as they are',
} as const;

/** Puts pictures and films into the archive, one at a time, without where they were taken unless that is kept. A film goes in as it is or not at all. */
export function putPictures(
  bag: BagWriter,
  files: readonly FarmFile[],
  { disk, folder, to, names, keepLocation, clips }: PuttingPictures,
): { readonly listed: readonly PictureListed[]; readonly leftOut: readonly LeftOut[] } {
  const listed: PictureListed[] = [];
  const leftOut: LeftOut[] = [];
  for (const { path, kind } of files) {
    const file = disk.open(`${folder}/${path}`);
    try {
      const taken = { file: path, bytes: file.bytes, sha512: sha512Of(piecesOf(file)) };
      const archivedAs = `${to}/${names.get(path)!}`;
      if (keepLocation || (clips && kind === 'clip')) {
        const sha512Archived = bag.add(archivedAs, piecesOf(file));
        listed.push({ ...taken, archivedAs, location: 'kept', sha512Archived });
        continue;
      }
      // A film can hide a place among its sound and pictures, where nobody can look for it.
      const made = kind === 'clip' ? undefined : withoutLocation(Buffer.concat([...piecesOf(file)]));
      if (!made) {
        listed.push({ ...taken, archivedAs: '', location: 'left out', sha512Archived: '' });
        leftOut.push({ file: path, why: unsure[kind === 'clip' ? 'clip' : 'picture'] });
        continue;
      }
      const sha512Archived = bag.add(archivedAs, made.bytes);
      listed.push({
        ...taken,
        archivedAs,
        location: made.changed ? 'removed' : 'none found',
        sha512Archived,
      });
    } finally {
      file.close();
    }
  }
  return { listed, leftOut };
}
