import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import type { PrivateFile } from './mail-machine.js';

const othersMay = 0o077;

/**
 * Reads a file that must be its user's alone. It is opened once and looked at as opened, so that what is read is what was
 * looked at.
 *
 * Windows keeps its rights in lists that Node does not show: there it is read and said to be unchecked.
 */
export function nodePrivateFile(path: string): PrivateFile {
  let file: number;
  try {
    file = openSync(path, 'r');
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    return code === 'ENOENT' ? { outcome: 'not-there' } : { outcome: 'not-readable', why: code ?? message };
  }
  try {
    const stat = fstatSync(file);
    if (!stat.isFile()) return { outcome: 'not-readable', why: 'it is no file' };
    const me = process.getuid?.();
    if (me === undefined) return { outcome: 'read', text: readFileSync(file, 'utf8'), checked: false };
    if (stat.uid !== me) return { outcome: 'another-users' };
    const mode = stat.mode & 0o777;
    if ((mode & othersMay) !== 0) return { outcome: 'open-to-others', mode: mode.toString(8) };
    return { outcome: 'read', text: readFileSync(file, 'utf8'), checked: true };
  } finally {
    closeSync(file);
  }
}
