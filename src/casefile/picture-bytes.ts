import { createHash } from 'node:crypto';
import type { PictureLookup } from '../ledger/sealable.js';
import type { CaseFiles } from './case-files.js';
import { lookAtPicture } from './look-at-picture.js';

/** Whether pictures are only looked at for their size, or read and hashed. */
export type PictureCare = 'sized' | 'hashed';

/** What there is of a farm's pictures, as their seals hold it. Each is looked at once. */
export function pictureBytes(files: CaseFiles, farmFolder: string, care: PictureCare): PictureLookup {
  const seen = new Map<string, ReturnType<PictureLookup>>();
  const look: PictureLookup = (file) => {
    const { kind } = lookAtPicture(files, farmFolder, file);
    if (kind === 'missing' || kind === 'outside') return undefined;
    const path = `${farmFolder}/${file.replaceAll('\\', '/')}`;
    try {
      if (care === 'sized') return { bytes: files.look(path)?.bytes ?? 0 };
      const bytes = files.read(path);
      return { bytes: bytes.length, sha512: createHash('sha512').update(bytes).digest('hex') };
    } catch {
      return undefined;
    }
  };
  return (file) => {
    if (!seen.has(file)) seen.set(file, look(file));
    return seen.get(file);
  };
}
