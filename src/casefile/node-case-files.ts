import {
  closeSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  statSync,
  type Dirent,
  type Stats,
} from 'node:fs';
import type { CaseFiles, EntryKind } from './source-text.js';

/** The files of this computer. */
export const nodeCaseFiles: CaseFiles = {
  look: (path) => {
    const stats = statSync(path, { throwIfNoEntry: false });
    if (!stats) return undefined;
    const { size: bytes, mtimeMs: changedAt, ctimeMs, ino } = stats;
    return { kind: kindOf(stats), bytes, changedAt, mark: `${ino} ${bytes} ${changedAt} ${ctimeMs}` };
  },
  list: (folder) =>
    readdirSync(folder, { withFileTypes: true })
      .map((entry) => ({ name: entry.name, kind: kindOf(entry) }))
      .sort((a, b) => (a.name < b.name ? -1 : 1)),
  read: (path) => readFileSync(path),
  readStart: (path, bytes) => {
    const file = openSync(path, 'r');
    try {
      const start = new Uint8Array(bytes);
      return start.subarray(0, readSync(file, start, 0, bytes, 0));
    } finally {
      closeSync(file);
    }
  },
  realPath: (path) => {
    try {
      return realpathSync(path).replaceAll('\\', '/');
    } catch {
      return undefined;
    }
  },
};

function kindOf(entry: Dirent | Stats): EntryKind {
  if (entry.isFile()) return 'file';
  if (entry.isDirectory()) return 'folder';
  return entry.isSymbolicLink() ? 'link' : 'other';
}
