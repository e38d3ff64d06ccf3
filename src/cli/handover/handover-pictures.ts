import { handoverLimits } from '../../handover/handover-limits.js';
import type { LatestPicture, MadePicture } from '../../handover/lesion-pictures.js';
import { preparePicture } from '../../picture/prepare-picture.js';
import type { Effects } from '../effects.js';
import { readPicture } from '../read-picture.js';

/** Pictures made ready for a page, by the name the record writes, and those that could not be; nothing is kept but the dots. */
export async function handoverPictures(
  farm: string,
  latest: readonly LatestPicture[],
  cases: string,
  effects: Effects,
): Promise<{ readonly made: ReadonlyMap<string, MadePicture>; readonly notMade: readonly string[] }> {
  const read = readPicture(effects, cases, farm);
  const size = { longestPx: handoverLimits.picturePx, quality: handoverLimits.pictureQuality };
  const made = new Map<string, MadePicture>();
  const notMade: string[] = [];
  for (const { photo } of latest) {
    const bytes = read(photo.file);
    const ready = bytes && (await preparePicture(bytes, size));
    if (ready?.kind === 'made') {
      const { jpeg, widthPx, heightPx } = ready;
      made.set(photo.file, { base64: Buffer.from(jpeg).toString('base64'), widthPx, heightPx });
    } else notMade.push(photo.file);
  }
  return { made, notMade };
}
