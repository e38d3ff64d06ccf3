import { isDeviceName } from '../record/measures.js';
import type { Trouble } from './bag-form.js';

/** No path of this program's is longer: names of files are kept below, and that of a farm's folder has an end. */
const longest = 280;

/**
 * Why a path in an archive could do harm, or could not be unpacked everywhere; undefined for a good one.
 *
 * Asked before anything of that name is opened, and again of every name before it is written.
 *
 * Shape:   a path from the archive's own folder, as it is there → what is wrong, the way of it in `problem.archive/unsafe-path`
 * Checked: tests/bag/hostile-zips.test.ts
 */
export function pathTrouble(path: string): Trouble | undefined {
  if (path === '') return { way: 'path-empty' };
  if (path.includes('\0')) return { way: 'path-nul' };
  if (path.includes('\\')) return { way: 'path-backslash' };
  if (path.startsWith('/')) return { way: 'path-absolute' };
  if (/^[a-z]:/i.test(path)) return { way: 'path-drive' };
  if (!/^[ -~]+$/.test(path)) return { way: 'path-not-ascii' };
  if (path.length > longest) return { way: 'path-long', values: { longest } };
  const bad = /[%:*?"<>|]/.exec(path);
  if (bad) return { way: 'path-sign', values: { sign: bad[0] } };
  for (const part of path.split('/')) {
    if (part === '..') return { way: 'path-out' };
    if (part === '' || part === '.') return { way: 'path-nothing' };
    if (/[. ]$|^ /.test(part)) return { way: 'path-space' };
    if (isDeviceName(part)) return { way: 'path-device', values: { part } };
  }
  return undefined;
}

/**
 * Paths that would meet on a disk where capitals make no difference, or where one is a file and the other needs a
 * folder of that name; each with the one it meets.
 */
export function meetingPaths(paths: Iterable<string>): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  const folders = new Map<string, { written: string; by: string }>();
  const meeting = new Map<string, string>();
  for (const path of paths) {
    const lower = path.toLowerCase();
    const other = files.get(lower) ?? folders.get(lower)?.by;
    if (other !== undefined) meeting.set(path, other);
    for (const folder of foldersAbove(path)) {
      const key = folder.toLowerCase();
      const before = folders.get(key);
      if (files.has(key)) meeting.set(path, files.get(key)!);
      else if (before && before.written !== folder) meeting.set(path, before.by);
      if (!before) folders.set(key, { written: folder, by: path });
    }
    if (!files.has(lower)) files.set(lower, path);
  }
  return meeting;
}

function foldersAbove(path: string): string[] {
  const parts = path.split('/').slice(0, -1);
  return parts.map((_, index) => parts.slice(0, index + 1).join('/'));
}
