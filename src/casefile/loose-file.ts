import type { Problem } from '../problem/problem.js';
import type { CasesRoot, FolderEntry } from './folder-entries.js';
import { slugFrom } from './case-folder-names.js';

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
