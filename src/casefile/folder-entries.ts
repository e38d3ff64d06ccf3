import type { Problem } from '../problem/problem.js';
import type { CaseFiles, EntryKind } from './source-text.js';
import { reasonOf } from './read-text.js';
import { isDeviceName } from '../record/device-name.js';

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

const slugForm = /^[a-z0-9][a-z0-9-]{0,63}$/;

/** What is wrong with a name as a slug, the way it is to be put right; undefined for a good one. */
export function slugTrouble(name: string): { id: string; expected: string; mend: string } | undefined {
  if (isDeviceName(name)) {
    return {
      id: 'folder/device-name',
      expected: 'a name that Windows does not keep for itself',
      mend: `add something to the name, such as \`${name.toLowerCase()}-1\``,
    };
  }
  if (slugForm.test(name)) return undefined;
  const lower = name.toLowerCase();
  if (slugForm.test(lower)) {
    return { id: 'folder/letter-case', expected: 'small letters', mend: `rename it to \`${lower}\`` };
  }
  const joined = slugFrom(name);
  return {
    id: 'folder/name-form',
    expected: 'small letters, digits and hyphens only, at most 64',
    mend: joined ? `rename it, such as to \`${joined}\`` : 'rename it',
  };
}

/** A name that would do as a slug in the place of one that does not; undefined where none is near. */
export function slugInstead(name: string): string | undefined {
  const near = slugFrom(name);
  if (near === '') return undefined;
  return slugTrouble(near) ? `${near}-1` : near;
}

/** A name as near as a slug can be to it: `2086/b` becomes `2086-b`. Empty where the name holds no letter or digit a slug may have. */
export function slugFrom(name: string): string {
  return name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 64)
    .replaceAll(/^-+|-+$/g, '');
}

/** So much of a file's start is looked at, bytes: the first keys of any case file stand in it. */
const startBytes = 4096;

/**
 * A file that holds a case and is not read, because its name does not end in `.md`.
 *
 * Why by what it holds: Notepad saves `0312.txt`, some computers hide the ending, and an animal lost without a word
 * would be missing from the book. Other files are nobody's business here.
 *
 * Checked: tests/casefile/bad-cases.test.ts (folder--other-ending)
 */
function lookAlike(root: CasesRoot, entry: FolderEntry, where: 'root' | 'farm'): Problem[] {
  if (entry.kind !== 'file') return [];
  const start = startOf(root, entry.path);
  if (!looksLikeCase(start)) return [];
  const name = `${slugFrom(stemOf(entry.name)) || '2086'}.md`;
  const [, ending] = /(\.[^.]+|~)$/.exec(entry.name) ?? [];
  const said = ending === undefined ? 'has no ending' : `ends in \`${ending}\``;
  return [
    {
      id: 'folder/other-ending',
      severity: 'warning',
      file: entry.shown,
      message: `this looks like a case file, and it is not read since its name ${said}, expected \`.md\``,
      mend: mend(root, entry, { name, where, packed: start.startsWith('{\\rtf') }),
    },
  ];
}

function startOf(root: CasesRoot, path: string): string {
  try {
    const bytes = root.files.readStart(path, startBytes);
    const [first, second] = bytes;
    if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
    if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
    return new TextDecoder('utf-8').decode(bytes);
  } catch {
    return '';
  }
}

function looksLikeCase(start: string): boolean {
  return /^\s*---[ \t]*(?:[\r\n]|$)/.test(start) || /(?:^|[\r\n])(?:casefile|farm):/.test(start);
}

/** The name without what an editor or a sync program put behind it: `0312.md~`, `0312.txt`, `0312.md.bak`. */
function stemOf(name: string): string {
  return name.replace(/~$/, '').replace(/(?:\.md)?(?:\.[a-z][a-z0-9~]{0,9})?$/i, '');
}

function mend(
  { files }: CasesRoot,
  { name: called, path }: FolderEntry,
  {
    name,
    where,
    packed,
  }: { readonly name: string; readonly where: 'root' | 'farm'; readonly packed: boolean },
): string {
  const folder = path.slice(0, path.length - called.length);
  const inUse = where === 'farm' || name === 'business.md';
  if (inUse && files.look(`${folder}${name}`)?.kind === 'file')
    return `\`${name}\` stands beside it and is read; if this is an older copy of it, move it out of the folder`;
  if (packed) return `save it again as plain text under the name \`${name}\``;
  const why = /\.txt$/i.test(called) ? 'Notepad saves `.txt`, and some' : 'some';
  if (where === 'farm') return `rename it to \`${name}\`; ${why} computers hide the ending`;
  return name === 'business.md'
    ? 'rename it to `business.md`'
    : `if it is an animal's or a farm's file, rename it to \`${name}\` and move it into the farm's folder`;
}

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
