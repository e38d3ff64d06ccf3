import type { Problem } from '../problem/problem.js';
import { type ArchiveDisk, archiveProblem } from './bag-form.js';
import { type BagFiles, piecesOf } from './bag-files.js';

/** Deeper, or more, is no archive of this program's; following it could go on for ever. */
const deepest = 12;
export const mostFiles = 200_000;

/** The files of a bag that lies unpacked in a folder. Links are named, never followed. */
export function bagInFolder(
  disk: ArchiveDisk,
  folder: string,
): { readonly files: BagFiles; readonly problems: readonly Problem[] } {
  const sizes = new Map<string, number>();
  const problems: Problem[] = [];
  const walk = (below: string, depth: number): void => {
    for (const { name, kind } of disk.list(below === '' ? folder : `${folder}/${below}`)) {
      const path = below === '' ? name : `${below}/${name}`;
      const shown = `${folder}/${path}`;
      if (kind === 'link' || kind === 'other') problems.push(noOrdinaryFile(shown, kind));
      else if (kind === 'folder') {
        if (depth < deepest) walk(path, depth + 1);
        else problems.push(tooMuch(shown, `folders lie more than ${deepest} deep`));
      } else if (sizes.size >= mostFiles) {
        if (sizes.size === mostFiles && problems.every(({ id }) => id !== 'archive/too-much'))
          problems.push(tooMuch(folder, `there are more than ${mostFiles} files`));
      } else sizes.set(path, sizeOf(disk, shown));
    }
  };
  walk('', 0);
  return { files: { sizes, read: (path) => read(disk, `${folder}/${path}`) }, problems };
}

function sizeOf(disk: ArchiveDisk, path: string): number {
  const file = disk.open(path);
  try {
    return file.bytes;
  } finally {
    file.close();
  }
}

function* read(disk: ArchiveDisk, path: string): Generator<Uint8Array> {
  const file = disk.open(path);
  try {
    yield* piecesOf(file);
  } finally {
    file.close();
  }
}

function noOrdinaryFile(shown: string, kind: 'link' | 'other'): Problem {
  return archiveProblem(
    'archive/link',
    shown,
    kind === 'link'
      ? 'this is a link, expected only ordinary files: it was not followed'
      : 'this is no ordinary file: it was not opened',
  );
}

function tooMuch(shown: string, what: string): Problem {
  return archiveProblem(
    'archive/too-much',
    shown,
    `${what}, more than any archive of this program: the rest was not looked at`,
  );
}
