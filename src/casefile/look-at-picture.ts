import type { CaseFiles } from './source-text.js';
import { createHash } from 'node:crypto';
import type { PictureBytes, PictureLookup } from '../ledger/sealable.js';

/**
 * What is under a picture's name, decided by the first bytes of the file and never by its ending.
 *
 * `outside` is any path that leaves the farm's folder: absolute, through `..`, or through a link.
 */
export type PictureLook =
  | { readonly kind: 'jpeg' | 'png' | 'webp' }
  | { readonly kind: 'missing' | 'outside' | 'heic' | 'not-a-picture' };

/** Brands of the container format phones use for HEIC, in bytes 8 to 11 of the file. */
const heicBrands = ['heic', 'heix', 'hevc', 'hevx', 'heim', 'heis', 'mif1', 'msf1'];

/**
 * What is under a picture's name, seen from the farm's folder.
 *
 * Checked: tests/casefile/read-practice.test.ts
 */
export function lookAtPicture(files: CaseFiles, farmFolder: string, written: string): PictureLook {
  const path = written.replaceAll('\\', '/');
  if (leavesFolder(path)) return { kind: 'outside' };
  try {
    const real = files.realPath(`${farmFolder}/${path}`);
    const home = files.realPath(farmFolder);
    if (real === undefined || home === undefined) return { kind: 'missing' };
    if (!real.startsWith(`${home}/`)) return { kind: 'outside' };
    if (files.look(real)?.kind !== 'file') return { kind: 'not-a-picture' };
    return { kind: pictureKind(files.readStart(real, 16)) };
  } catch {
    return { kind: 'missing' };
  }
}

/** Absolute, with a drive or a scheme, or going up further than it went down. */
function leavesFolder(path: string): boolean {
  if (/^\/|^[a-z][a-z\d+.-]*:/i.test(path)) return true;
  let depth = 0;
  for (const part of path.split('/')) {
    if (part === '..') depth -= 1;
    else if (part !== '' && part !== '.') depth += 1;
    if (depth < 0) return true;
  }
  return false;
}

function pictureKind(start: Uint8Array): PictureLook['kind'] {
  const text = String.fromCharCode(...start);
  if (text.startsWith('\u00ff\u00d8\u00ff')) return 'jpeg';
  if (text.startsWith('\u0089PNG\r\n\u001a\n')) return 'png';
  if (text.startsWith('RIFF') && text.slice(8, 12) === 'WEBP') return 'webp';
  return text.slice(4, 8) === 'ftyp' && heicBrands.includes(text.slice(8, 12)) ? 'heic' : 'not-a-picture';
}

/** Whether pictures are only looked at for their size, or read and hashed: all, or those of some animals' files. */
export type PictureCare = 'sized' | 'hashed' | ReadonlySet<string> | PicturesTold;

/** Pictures that lie elsewhere, or not as they were taken: what is said of them stands for their bytes. */
interface PicturesTold {
  /** By the picture's name as the record writes it, with `/`; undefined where nothing is reported. */
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
