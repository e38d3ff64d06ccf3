import { lastPictures, type LastPicture, type SheetPicture } from '../form/sheet/last-picture.js';
import { sheetLayout } from '../form/sheet/sheet-layout.js';
import { preparePicture } from '../picture/prepare-picture.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { Effects } from './effects.js';
import { readPicture } from './read-picture.js';

/** The last picture of each animal that can be read, made small, by her slug. */
export async function sheetPictures(
  farm: string,
  work: readonly CaseWork[],
  cases: string,
  effects: Effects,
): Promise<ReadonlyMap<string, { readonly last: LastPicture; readonly made: SheetPicture }>> {
  const read = readPicture(effects, cases, farm);
  const size = { longestPx: sheetLayout.picturePx, quality: sheetLayout.pictureQuality };
  const pictures = new Map<string, { last: LastPicture; made: SheetPicture }>();
  for (const { record, standing } of work)
    for (const last of lastPictures(record.animal, standing.leading?.lesion)) {
      const bytes = read(last.photo.file);
      const made = bytes && (await preparePicture(bytes, size));
      if (made?.kind !== 'made') continue;
      const { jpeg, widthPx, heightPx } = made;
      pictures.set(record.slug, {
        last,
        made: { base64: Buffer.from(jpeg).toString('base64'), widthPx, heightPx },
      });
      break;
    }
  return pictures;
}
