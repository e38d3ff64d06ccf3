import { isDeviceName } from '../record/device-name.js';

/** No path of this program's is longer: names of files are kept below, and that of a farm's folder has an end. */
const longest = 280;

/**
 * Why a path in an archive could do harm, or could not be unpacked everywhere; undefined for a good one.
 *
 * Asked before anything of that name is opened, and again of every name before it is written.
 *
 * Shape:   a path from the archive's own folder, as it stands there → what is wrong, to follow “the path …”
 * Checked: tests/bag/hostile-zips.test.ts
 */
export function pathTrouble(path: string): string | undefined {
  if (path === '') return 'is empty';
  if (path.includes('\0')) return 'holds a NUL, where some programs stop reading';
  if (path.includes('\\')) return 'holds a backslash, which leads elsewhere on Windows';
  if (path.startsWith('/')) return 'is absolute';
  if (/^[a-z]:/i.test(path)) return 'begins with a drive';
  if (!/^[ -~]+$/.test(path)) return 'holds a character that is not plain ASCII';
  if (path.length > longest) return `is longer than ${longest} characters`;
  const bad = /[%:*?"<>|]/.exec(path);
  if (bad) return `holds \`${bad[0]}\`, which not every system or checker takes as it is`;
  for (const part of path.split('/')) {
    if (part === '..') return 'leads out of the archive (`..`)';
    if (part === '' || part === '.') return 'has a part that names nothing';
    if (/[. ]$|^ /.test(part)) return 'has a part that begins or ends in a space or ends in a full stop';
    if (isDeviceName(part)) return `has a part Windows keeps for a device (\`${part}\`)`;
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
