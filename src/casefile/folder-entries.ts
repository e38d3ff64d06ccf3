import { messageOf, problemIn } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import { messageWords } from '../reference/words.js';
import type { CaseFiles, EntryKind } from './source-text.js';
import { reasonOf } from './read-text.js';
import { isDeviceName } from '../record/measures.js';

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
      const led = kind === 'link' ? ledTo(root, folder, entry) : entry;
      if (led && 'id' in led) problems.push(led);
      else if (led) entries.push(led);
    }
  } catch (error) {
    problems.push(problemIn(shown, 'folder/unreadable', { reason: reasonOf(error) }));
  }
  return { entries, problems };
}

/**
 * Where a link leads. One to the folder it is in, or to one above that within the cases folder, would never end; of
 * those out of the cases folder or broken only one that could hide a farm or a case file matters.
 */
function ledTo(
  { files, real: top }: CasesRoot,
  folder: string,
  entry: FolderEntry,
): FolderEntry | Problem | undefined {
  const { name, path, shown } = entry;
  const [real, home] = [files.realPath(path), files.realPath(folder)];
  const isIn = (one: string, other: string): boolean => one === other || one.startsWith(`${other}/`);
  if (real !== undefined && isIn(real, top)) {
    if (home !== undefined && isIn(home, real))
      return problemIn(shown, 'folder/link-above', {}, { severity: 'warning' });
    const kind = files.look(path)?.kind;
    return kind && { ...entry, kind };
  }
  const matters = !name.includes('.') || /\.md$/i.test(name);
  if (!matters) return undefined;
  if (real === undefined) return problemIn(shown, 'folder/broken-link');
  return problemIn(shown, 'folder/link-outside', { real }, name === 'photos' ? { way: 'photos' } : {});
}

const slugForm = /^[a-z0-9][a-z0-9-]{0,63}$/;

/**
 * Why a name is no slug, and one that would do, empty where none is near; undefined for a good one.
 *
 * `expected` follows on from a sentence that names it.
 */
export function slugTrouble(
  name: string,
): { readonly id: string; readonly expected: string; readonly meant: string } | undefined {
  const lower = name.toLowerCase();
  const found = (id: string, meant: string) => ({
    id,
    expected: messageWords().say(`expected.${id}`),
    meant,
  });
  if (isDeviceName(name)) return found('folder/device-name', `${lower}-1`);
  if (slugForm.test(name)) return undefined;
  return slugForm.test(lower)
    ? found('folder/letter-case', lower)
    : found('folder/name-form', slugFrom(name));
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

/** So much of a file's start is looked at, bytes: the first keys of any case file are in it. */
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
  const start = entry.kind === 'file' ? startOf(root, entry.path) : '';
  if (!/^\s*---[ \t]*(?:[\r\n]|$)|(?:^|[\r\n])(?:casefile|farm):/.test(start)) return [];
  // Without what an editor or a sync program put behind it: `0312.md~`, `0312.txt`, `0312.md.bak`.
  const stem = entry.name.replace(/~$/, '').replace(/(?:\.md)?(?:\.[a-z][a-z0-9~]{0,9})?$/i, '');
  const name = `${slugFrom(stem) || '2086'}.md`;
  const [, ending] = /(\.[^.]+|~)$/.exec(entry.name) ?? [];
  const values = { name, ending: ending ?? '' };
  const way = ending === undefined ? 'no-ending' : 'ending';
  const { mend } = messageOf('folder/other-ending', values, wayToMend(root, entry, { name, where, start }));
  return [{ ...problemIn(entry.shown, 'folder/other-ending', values, { way, severity: 'warning' }), mend }];
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

/** How a file that holds a case comes to be read. */
function wayToMend(
  { files }: CasesRoot,
  { name: called, path }: FolderEntry,
  { name, where, start }: { readonly name: string; readonly where: 'root' | 'farm'; readonly start: string },
): string {
  const folder = path.slice(0, path.length - called.length);
  const inUse = where === 'farm' || name === 'business.md';
  if (inUse && files.look(`${folder}${name}`)?.kind === 'file') return 'beside';
  if (start.startsWith('{\\rtf')) return 'no-plain-text';
  if (where === 'farm') return /\.txt$/i.test(called) ? 'txt' : 'ending';
  return name === 'business.md' ? 'business' : 'elsewhere';
}

/** What is said of a file that is not read: nothing, unless somebody may think it is. */
export function looseFile(
  root: CasesRoot,
  entry: FolderEntry,
  where: 'root' | 'farm' | 'sub-folder',
): Problem[] {
  if (/\.md\.txt$|\.markdown$|\.md\.docx?$/i.test(entry.name)) {
    const ending = /\.[a-z]+$/i.exec(entry.name)?.[0] ?? '';
    return [problemIn(entry.shown, 'folder/other-ending', { ending }, { severity: 'warning' })];
  }
  if (!/\.md$/i.test(entry.name)) return where === 'sub-folder' ? [] : lookAlike(root, entry, where);
  const way = where === 'farm' ? 'farm' : 'elsewhere';
  return [problemIn(entry.shown, 'folder/stray-file', {}, { way, severity: 'note' })];
}
