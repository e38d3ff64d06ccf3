import type { Problem } from '../problem/problem.js';
import type { CasesRoot, FolderEntry } from './folder-entries.js';
import { lookAlike } from './look-alike.js';

/** What is said of a file that is not read: nothing, unless somebody may think it is. */
export function looseFile(
  root: CasesRoot,
  entry: FolderEntry,
  where: 'root' | 'farm' | 'sub-folder',
): Problem[] {
  if (/\.md\.txt$|\.markdown$|\.md\.docx?$/i.test(entry.name)) {
    return [
      {
        id: 'folder/other-ending',
        severity: 'warning',
        file: entry.shown,
        message: `the name ends in \`${/\.[a-z]+$/i.exec(entry.name)?.[0] ?? ''}\` and the file is not read, expected \`.md\``,
        mend: 'rename it so that it ends in `.md`; some computers hide the last part of a name',
      },
    ];
  }
  if (!/\.md$/i.test(entry.name)) return where === 'sub-folder' ? [] : lookAlike(root, entry, where);
  return [
    {
      id: 'folder/stray-file',
      severity: 'note',
      file: entry.shown,
      message: "this file is not read, expected an animal's file directly in its farm's folder",
      mend:
        where === 'farm'
          ? 'nothing to do; an animal needs another name than this'
          : "nothing to do, unless it is an animal's file: then move it into its farm's folder",
    },
  ];
}
