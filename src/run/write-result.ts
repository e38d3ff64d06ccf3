import { terminal } from '../problem/message.js';
import type { Effects } from './effects.js';
import { WrongUse } from './exit-code.js';

/** Refusals of the file system that have words of their own: what one means to somebody who only wants the file, and the way out. */
const refusals = ['EEXIST', 'ENOTDIR', 'EISDIR', 'ENOENT', 'ENOSPC', 'EROFS'];

/** Writes a result whole. A file system that refuses is no fault of the program's: it is said with the way out. */
export function writeResult(path: string, content: string | Uint8Array, effects: Effects): void {
  try {
    effects.writeFile(path, content);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined) throw error;
    const way = refusals.includes(code) ? code : 'closed';
    throw new WrongUse(terminal(`not-written.${way}`, { path, code }));
  }
}
