import { join } from 'node:path';
import { folderOf } from './common-options.js';
import type { Effects } from './effects.js';

/** Reads a picture named in a farm's records; undefined where nothing stands that can be read. A name may be written with `\`. */
export function readPicture(
  effects: Effects,
  cases: string,
  farm: string,
): (file: string) => Uint8Array | undefined {
  const folder = join(folderOf(effects, cases), farm);
  return (file) => {
    const path = join(folder, file.replaceAll('\\', '/'));
    try {
      return effects.files.look(path)?.kind === 'file' ? effects.files.read(path) : undefined;
    } catch {
      return undefined;
    }
  };
}
