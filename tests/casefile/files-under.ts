import type { CaseFiles } from '../../src/casefile/source-text.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';

/** The files of this computer with one folder called `cases`, so that messages do not tell where it lies. */
export function filesUnder(folder: string): CaseFiles {
  const onDisk = (path: string): string => (path.startsWith('/') ? path : path.replace(/^cases/, folder));
  const { look, list, read, readStart, realPath } = nodeCaseFiles;
  return {
    look: (path) => look(onDisk(path)),
    list: (path) => list(onDisk(path)),
    read: (path) => read(onDisk(path)),
    readStart: (path, bytes) => readStart(onDisk(path), bytes),
    realPath: (path) => realPath(onDisk(path)),
  };
}
