import { closeSync, fstatSync, lstatSync, openSync, readSync } from 'node:fs';
import type { Stats } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { ArchiveDisk, Standing } from '../bag/archive-disk.js';
import { nodeCaseFiles } from '../casefile/node-case-files.js';
import { type Machine, makeFolder, ownWord, sweep, syncFolder, thisMachine } from './node-disk.js';

/** This computer's disk; relative paths start from `folder`. */
export function nodeArchiveDisk(folder: string, machine: Machine = thisMachine): ArchiveDisk {
  const { calls } = machine;
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
      makeFolder(dirname(at(path)), calls);
      const file = calls.open(at(path), 'wx');
      return {
        write: (bytes) => {
          for (let written = 0; written < bytes.length;) written += calls.write(file, bytes, written);
        },
        close: () => {
          try {
            calls.sync(file);
          } finally {
            calls.close(file);
          }
        },
      };
    },
    rename: (from, to) => {
      calls.rename(at(from), at(to));
      syncFolder(dirname(at(to)), calls);
    },
    removeAll: (path) => calls.remove(at(path)),
    sweep: (path) => sweep(at(path), machine),
    token: () => ownWord(machine),
  };
}

function kindOf(stats: Stats): Standing {
  if (stats.isFile()) return 'file';
  if (stats.isDirectory()) return 'folder';
  return stats.isSymbolicLink() ? 'link' : 'other';
}
