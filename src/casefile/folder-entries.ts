import type { Problem } from '../problem/problem.js';
import type { CaseFiles, EntryKind } from './case-files.js';
import { reasonOf } from './read-text.js';

/** An entry worth looking at, links followed where they stay inside the cases folder. */
export interface FolderEntry {
  readonly name: string;
  readonly kind: EntryKind;
  readonly path: string;
  /** As the user would type it. */
  readonly shown: string;
}

/** The cases folder: where it is, what the user calls it, and what it really is once links are followed. */
export interface CasesRoot {
  readonly files: CaseFiles;
  readonly real: string;
}

/** Entries of a folder without those that begin with a dot. Links out of the cases folder are refused, not followed. */
export function folderEntries(
  root: CasesRoot,
  folder: string,
  shown: string,
): { readonly entries: FolderEntry[]; readonly problems: Problem[] } {
  const entries: FolderEntry[] = [];
  const problems: Problem[] = [];
  try {
    for (const { name, kind } of root.files.list(folder)) {
      if (name.startsWith('.')) continue;
      const entry = { name, kind, path: `${folder}/${name}`, shown: `${shown}/${name}` };
      if (kind !== 'link') entries.push(entry);
      else if (leadsAbove(root, folder, entry)) problems.push(linkAbove(entry));
      else followLink(root, entry, entries, problems);
    }
  } catch (error) {
    problems.push({
      id: 'folder/unreadable',
      severity: 'error',
      file: shown,
      message: `the folder could not be read (${reasonOf(error)})`,
      mend: 'look whether you may open it, then run this again',
    });
  }
  return { entries, problems };
}

/** A link to the folder it stands in, or to one above that within the cases folder: following it would never end. */
function leadsAbove(root: CasesRoot, folder: string, entry: FolderEntry): boolean {
  const [real, home] = [root.files.realPath(entry.path), root.files.realPath(folder)];
  if (real === undefined || home === undefined) return false;
  const inside = real === root.real || real.startsWith(`${root.real}/`);
  return inside && (home === real || home.startsWith(`${real}/`));
}

function linkAbove(entry: FolderEntry): Problem {
  return {
    id: 'folder/link-above',
    severity: 'warning',
    file: entry.shown,
    message: 'this is a link to a folder above it and is not followed, expected a file or a folder',
    mend: 'take the link away: what it leads to is read without it',
  };
}

/** Only a link that could hide a farm or a case file matters. */
function followLink(root: CasesRoot, entry: FolderEntry, entries: FolderEntry[], problems: Problem[]): void {
  const real = root.files.realPath(entry.path);
  const matters = !entry.name.includes('.') || /\.md$/i.test(entry.name);
  if (real !== undefined && (real === root.real || real.startsWith(`${root.real}/`))) {
    const kind = root.files.look(entry.path)?.kind;
    if (kind) entries.push({ ...entry, kind });
  } else if (matters) {
    problems.push({
      id: real === undefined ? 'folder/broken-link' : 'folder/link-outside',
      severity: 'error',
      file: entry.shown,
      message:
        real === undefined
          ? 'this is a link to something that is not there, expected a file or a folder'
          : 'this is a link to a place outside the cases folder, expected a file or folder inside it',
      mend: 'put the file or folder itself here, or take the link away',
    });
  }
}
