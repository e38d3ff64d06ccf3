import type { Problem } from '../../problem/problem.js';
import type { ArchiveDisk } from '../archive-disk.js';
import { archiveProblem } from '../archive-problem.js';
import { bagInFolder } from '../bag/bag-in-folder.js';
import type { BagFiles } from '../bag/bag-files.js';
import { bagInZip } from '../zip/bag-in-zip.js';
import { compareZip } from '../zip/compare-zip.js';
import { checkBag } from './check-bag.js';

/** An archive and what was found of it. */
export interface ArchiveVerified {
  readonly problems: readonly Problem[];
  readonly files: BagFiles;
  /** Payload paths (with `data/`) that are there, listed and unchanged: what may be looked into further. */
  readonly sound: ReadonlySet<string>;
  /** How a path in it is shown to the user. */
  readonly shown: (path: string) => string;
}

/** Looks into a sound archive further, before it is closed. */
export type LookFurther = (archive: ArchiveVerified) => readonly Problem[];

/**
 * Checks an archive, a bag's folder or the zip of one. Nothing is written, and nothing outside it is opened.
 *
 * Shape:   where it lies → what is wrong; undefined where nothing stands there
 * Checked: tests/archive/verify-archive.test.ts
 */
export async function verifyArchive(
  disk: ArchiveDisk,
  path: string,
  lookFurther: LookFurther = () => [],
): Promise<{ readonly problems: readonly Problem[]; readonly files: number } | undefined> {
  const standing = disk.look(path);
  if (standing === 'folder') {
    const { files, problems } = bagInFolder(disk, path);
    const shown = (file: string): string => `${path}/${file}`;
    const checked = checkBag(files, shown);
    const archive = {
      files,
      shown,
      sound: checked.sound,
      problems: [...problems, ...checked.problems],
    };
    return { problems: [...archive.problems, ...lookFurther(archive)], files: files.sizes.size };
  }
  if (standing === undefined) return undefined;
  if (standing !== 'file')
    return { problems: [archiveProblem('archive/no-archive', path, 'this is no ordinary file')], files: 0 };
  const file = disk.open(path);
  try {
    const bag = await bagInZip(file, path);
    if ('problems' in bag) return { problems: bag.problems, files: 0 };
    const { files } = bag;
    const shown = (inner: string): string => `${path}/${inner}`;
    const checked = checkBag(files, shown);
    const troubled = new Set(checked.problems.map((problem) => problem.file));
    const container = await compareZip(file, bag, path, (inner) => troubled.has(shown(inner)));
    const archive = { files, shown, sound: checked.sound, problems: [...checked.problems, ...container] };
    return { problems: [...archive.problems, ...lookFurther(archive)], files: files.sizes.size };
  } finally {
    file.close();
  }
}
