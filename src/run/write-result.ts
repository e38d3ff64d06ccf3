import type { Effects } from './effects.js';
import { WrongUse } from './exit-code.js';

/** What a refusal of the file system means to somebody who only wants the file, and the way out. */
const refusals: Readonly<Record<string, string>> = {
  EEXIST: 'a file stands where a folder is needed; name a folder with --out',
  ENOTDIR: 'a file stands where a folder is needed; name a folder with --out',
  EISDIR: 'a folder of that name stands there; move it away, or name another folder with --out',
  ENOENT: 'no folder can be made there; name another with --out',
  ENOSPC: 'the disk is full; make room, then run this again',
  EROFS: 'this place cannot be written; name another folder with --out',
};
const closed =
  'it may be open in another program, or not yours to write; close it, or name another folder with --out';

/** Writes a result whole. A file system that refuses is no fault of the program's: it is said with the way out. */
export function writeResult(path: string, content: string | Uint8Array, effects: Effects): void {
  try {
    effects.writeFile(path, content);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined) throw error;
    throw new WrongUse(
      `${path} could not be written (${code}), and nothing there was changed: ${refusals[code] ?? closed}`,
    );
  }
}
