import { randomUUID } from 'node:crypto';
import {
  closeSync,
  fstatSync,
  fsyncSync,
  lstatSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import type { Stats } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { ArchiveDisk, Standing } from '../../archive/archive-disk.js';
import { nodeCaseFiles } from '../../casefile/node-case-files.js';
import { syncFolder } from '../sync-folder.js';
import { makeFolder } from '../write-whole.js';

/** This computer's disk; relative paths start from `folder`. */
export function nodeArchiveDisk(folder: string): ArchiveDisk {
  const at = (path: string): string => resolve(folder, path);
  return {
    look: (path) => {
      const stats = lstatSync(at(path), { throwIfNoEntry: false });
      return stats && kindOf(stats);
    },
    list: (path) => nodeCaseFiles.list(at(path)),
    open: (path) => {
      const file = openSync(at(path), 'r');
      return {
        bytes: fstatSync(file).size,
        readAt: (offset, length) => {
          const bytes = Buffer.allocUnsafe(length);
          let read = 0;
          for (let some = 1; some > 0 && read < length; read += some)
            some = readSync(file, bytes, read, length - read, offset + read);
          return bytes.subarray(0, read);
        },
        close: () => closeSync(file),
      };
    },
    create: (path) => {
      makeFolder(dirname(at(path)));
      const file = openSync(at(path), 'wx');
      return {
        write: (bytes) => {
          for (let written = 0; written < bytes.length;) written += writeSync(file, bytes, written);
        },
        close: () => {
          try {
            fsyncSync(file);
          } finally {
            closeSync(file);
          }
        },
      };
    },
    rename: (from, to) => {
      renameSync(at(from), at(to));
      syncFolder(dirname(at(to)));
    },
    removeAll: (path) => rmSync(at(path), { recursive: true, force: true }),
    token: randomUUID,
  };
}

function kindOf(stats: Stats): Standing {
  if (stats.isFile()) return 'file';
  if (stats.isDirectory()) return 'folder';
  return stats.isSymbolicLink() ? 'link' : 'other';
}
