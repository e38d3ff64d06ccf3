import type { Problem } from '../problem/problem.js';
import { type ArchiveDisk, archiveProblem } from './bag-form.js';
import { type BagFiles, piecesOf, withFile } from './bag-files.js';

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
      if (kind === 'link' || kind === 'other') problems.push(archiveProblem('archive/link', shown, kind));
      else if (kind === 'folder') {
        if (depth < deepest) walk(path, depth + 1);
        else problems.push(archiveProblem('archive/too-much', shown, 'deep', { most: deepest }));
      } else if (sizes.size >= mostFiles) {
        if (sizes.size === mostFiles && problems.every(({ id }) => id !== 'archive/too-much'))
          problems.push(archiveProblem('archive/too-much', folder, 'many', { most: mostFiles }));
      } else
        sizes.set(
          path,
          withFile(disk, shown, ({ bytes }) => bytes),
        );
    }
  };
  walk('', 0);
  return { files: { sizes, read: (path) => read(disk, `${folder}/${path}`) }, problems };
}

function* read(disk: ArchiveDisk, path: string): Generator<Uint8Array> {
  const file = disk.open(path);
  try {
    yield* piecesOf(file);
  } finally {
    file.close();
  }
}
