import { createHash } from 'node:crypto';
import type { PictureBytes, PictureLookup } from '../ledger/sealable.js';
import type { CaseFiles } from './source-text.js';
import { lookAtPicture } from './look-at-picture.js';

/** Whether pictures are only looked at for their size, or read and hashed: all, or those of some animals' files. */
export type PictureCare = 'sized' | 'hashed' | ReadonlySet<string> | PicturesTold;

/** Pictures that lie elsewhere, or not as they were taken: what is told of them stands for their bytes. */
export interface PicturesTold {
  /** By the picture's name as the record writes it, with `/`; undefined where nothing is told. */
  readonly told: (farm: string, file: string) => PictureBytes | undefined;
}

/** What there is of a farm's pictures, as their seals hold it. Each is looked at once. */
export function pictureBytes(files: CaseFiles, farmFolder: string, care: PictureCare): PictureLookup {
  if (typeof care === 'object' && 'told' in care) {
    const farm = farmFolder.slice(farmFolder.lastIndexOf('/') + 1);
    return (file) => care.told(farm, file.replaceAll('\\', '/'));
  }
  const seen = new Map<string, PictureBytes | undefined>();
  return (file, animal) => {
    const hashed = typeof care === 'string' ? care === 'hashed' : care.has(animal);
    const key = `${hashed}\n${file}`;
    if (!seen.has(key)) seen.set(key, bytesOfPicture(files, farmFolder, file, hashed));
    return seen.get(key);
  };
}

function bytesOfPicture(
  files: CaseFiles,
  farmFolder: string,
  file: string,
  hashed: boolean,
): PictureBytes | undefined {
  const { kind } = lookAtPicture(files, farmFolder, file);
  if (kind === 'missing' || kind === 'outside') return undefined;
  const path = `${farmFolder}/${file.replaceAll('\\', '/')}`;
  try {
    if (!hashed) return { bytes: files.look(path)?.bytes ?? 0 };
    const bytes = files.read(path);
    return { bytes: bytes.length, sha512: createHash('sha512').update(bytes).digest('hex') };
  } catch {
    return undefined;
  }
}
