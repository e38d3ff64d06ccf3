import { terminal } from '../problem/message.js';
import type { Effects } from './effects.js';
import { refusalOf, WrongUse } from './exit-code.js';

/** What a refusal of the file system means to somebody who only wants the file, under `terminal.result`. */
const refusals = new Set(['EEXIST', 'ENOTDIR', 'EISDIR', 'ENOENT', 'ENOSPC', 'EROFS']);

/** Writes a result whole. A file system that refuses is no fault of the program's: it is said with the way out. */
export function writeResult(path: string, content: string | Uint8Array, effects: Effects): void {
  try {
    effects.writeFile(path, content);
  } catch (error) {
    const { code } = refusalOf(error);
    throw new WrongUse(terminal(`result.${refusals.has(code) ? code : 'other'}`, { path, code }));
  }
}
