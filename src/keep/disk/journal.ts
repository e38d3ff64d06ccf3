import { concerns, filesLeft, type Journal, journalFile, type Unfinished, unfinishedIn } from '../../casefile/unfinished.js'; // prettier-ignore
import { sha256Of } from '../../ledger/canonical.js';
import { cannot, type Cannot, type FileChange } from '../change.js';
import type { Disk } from './disk.js';
import { type Lock, underLocks } from './lock.js';
import { inRow, terminal } from '../../problem/message.js';

/** The folders somebody may write in, and what was found there. */
export interface Alone {
  /** Said to the user: locks taken over, changes taken back. */
  readonly told: readonly string[];
  /** Changes that were broken off, and are already taken back. */
  readonly tookBack: readonly Journal[];
  /** Whether all locks are still held. */
  readonly holds: () => boolean;
}

/**
 * Does something while the farms named are locked, `` standing for the cases folder itself; whatever was broken off in
 * them is taken back before, with the locks of all farms it wrote in.
 *
 * Error:   `cannot` where another program holds a lock, or the file system refuses: nothing is written then
 * Checked: tests/keep/every-step.test.ts
 */
export async function alone<T>(
  disk: Disk,
  casesFolder: string,
  farms: readonly string[],
  work: (alone: Alone) => T,
): Promise<T | Cannot> {
  const mine = (): Unfinished[] =>
    unfinishedIn(disk.files, casesFolder).filter((one) => farms.some((farm) => concerns(one, farm)));
  const folderOf = (home: string): string => (home === '' ? casesFolder : `${casesFolder}/${home}`);
  // A farm that was taken away since has nothing to be locked.
  const homesOf = (one: Unfinished): string[] =>
    farmsOf(one).filter((home) => disk.files.look(folderOf(home)) !== undefined);
  const under = (homes: readonly string[], locks: readonly Lock[]): { value: T } | Cannot | undefined => {
    const left = mine();
    // Another program may have broken off meanwhile, in a farm that is not locked here.
    if (left.some((one) => homesOf(one).some((home) => !homes.includes(home)))) return undefined;
    const back = takenBack(disk, casesFolder, left);
    if ('outcome' in back) return back;
    const told = [...locks.flatMap((lock) => lock.told), ...back.told];
    return { value: work({ ...back, told, holds: () => locks.every((lock) => lock.holds()) }) };
  };
  try {
    for (;;) {
      const homes = [...new Set([...farms, ...mine().flatMap(homesOf)])].toSorted();
      const done = await underLocks(disk, homes.map(folderOf), (locks) => under(homes, locks));
      if (done) return 'value' in done ? done.value : done;
    }
  } catch (error) {
    return cannot('keep.disk.refuses', { reason: reasonOf(error) });
  }
}

/** Its own folder, and those of the farms it wrote in that were there before. */
function farmsOf({ home, journal }: Unfinished): string[] {
  const folders = (journal?.files ?? []).flatMap(({ file }) =>
    file.includes('/') && !file.startsWith('.') ? file.split('/')[0]! : [],
  );
  return [home, ...folders.filter((folder) => !journal?.folders.includes(folder))];
}

function takenBack(
  disk: Disk,
  casesFolder: string,
  left: readonly Unfinished[],
): Pick<Alone, 'told' | 'tookBack'> | Cannot {
  const told: string[] = [];
  const tookBack: Journal[] = [];
  for (const { path, journal } of left) {
    if (!journal) return cannot('keep.disk.journal-unreadable', { path });
    try {
      told.push(takeBack(disk, casesFolder, path, journal));
      tookBack.push(journal);
    } catch (error) {
      return cannot('keep.disk.not-taken-back', { what: journal.what, reason: reasonOf(error) });
    }
  }
  return { told, tookBack };
}

/** Puts every file back as it was and then takes the journal away; told is what that came to. */
function takeBack(disk: Disk, casesFolder: string, path: string, journal: Journal): string {
  const saved: string[] = [];
  const all = filesLeft(disk.files, casesFolder, journal);
  for (const one of all.toReversed()) {
    if (one.lies === 'saved') saved.push(one.path);
    else if (one.was === undefined) disk.remove(one.path);
    else if (one.lies === 'changed') put(disk, one.path, one.was);
  }
  for (const folder of new Set(all.map((one) => one.path.slice(0, one.path.lastIndexOf('/')))))
    disk.sweep(folder);
  for (const folder of journal.folders.toReversed()) disk.removeFolder(`${casesFolder}/${folder}`);
  if (disk.files.look(path)) disk.remove(path);
  const way = saved.length === 0 ? 'taken-back' : 'taken-back-but';
  return terminal(`keep.disk.${way}`, { what: journal.what, files: inRow('comma', saved) });
}

/** What a change came to on the disk; where it cannot be, nothing of it is there. */
type Put = { readonly outcome: 'written'; readonly told: readonly string[] } | Cannot;

/**
 * Writes a change whole or not at all.
 *
 * First the journal, synced: of each file what it was and the hash of what it becomes. Then the files, in the order
 * given, each whole and synced: case files and pictures, the memory of undo, and the ledger last, so that it never
 * seals what is on no disk. Then the journal is taken away, and in that moment the change is there. Whoever finds a
 * journal takes the change back: the command that began it has not said that it is done, so it will be done again, and
 * then nothing is there twice.
 *
 * Shape:   `home`: the folder the journal lies in, whose lock is held: a farm's slug, or `` for the cases folder
 * Error:   never throws for what a file system does; the message says what is on the disk
 * Checked: tests/keep/every-step.test.ts
 */
export function writeWhole(
  disk: Disk,
  casesFolder: string,
  home: string,
  { what, undo }: { readonly what: string; readonly undo: boolean },
  files: readonly FileChange[],
): Put {
  const path = [casesFolder, home, journalFile].filter((part) => part !== '').join('/');
  const inside = (file: string): string => file.slice(casesFolder.length + 1);
  const journal: Journal = {
    journal: 1,
    what,
    ...(undo ? { undo: true } : {}),
    files: files.map(({ path: file, before, after }) => ({
      file: inside(file),
      before: before === undefined ? null : isGrown(before, after) ? before.length : inBase64(before),
      after: after === undefined ? null : sha256Of(after),
    })),
    folders: newFolders(disk, casesFolder, files).map(inside),
  };
  let placed = false;
  try {
    disk.replace(path, `${JSON.stringify(journal)}\n`);
    for (const { path: file, after } of files) put(disk, file, after);
    placed = true;
    disk.remove(path);
    return { outcome: 'written', told: [] };
  } catch (error) {
    if (!placed || disk.files.look(path) !== undefined)
      return failed(disk, casesFolder, path, journal, error);
    return {
      outcome: 'written',
      told: [terminal('keep.disk.not-synced', { reason: String(saidBy(error)) })],
    };
  }
}

function failed(disk: Disk, casesFolder: string, path: string, journal: Journal, error: unknown): Put {
  const { what } = journal;
  try {
    takeBack(disk, casesFolder, path, journal);
  } catch (again) {
    const way = disk.files.look(path) === undefined ? 'as-before' : 'rest-later';
    const said = { what, reason: String(saidBy(error)), again: String(saidBy(again)) };
    return cannot(`keep.disk.both-refused-${way}`, said);
  }
  return cannot('keep.disk.not-written', { what, reason: reasonOf(error) });
}

/** As the system names it, with the file; undefined for what is no doing of the disk's. */
function saidBy(error: unknown): string | undefined {
  const { code, path } = error as NodeJS.ErrnoException;
  return code === undefined || path === undefined ? code : `${code}, ${path}`;
}

/** What the disk says; what is no doing of its is thrown on. */
function reasonOf(error: unknown): string {
  const reason = saidBy(error);
  if (reason === undefined) throw error;
  return reason;
}

function put(disk: Disk, path: string, content: Uint8Array | undefined): void {
  if (content === undefined) disk.remove(path);
  else disk.replace(disk.files.realPath(path) ?? path, content);
}

/** A ledger only grows: what it was is its own beginning. */
function isGrown(before: Uint8Array, after: Uint8Array | undefined): boolean {
  return (
    after !== undefined &&
    after.length > before.length &&
    Buffer.compare(after.subarray(0, before.length), before) === 0
  );
}

function inBase64(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('base64');
}

/** Folders the files will be in that are not there, the outer one first. */
function newFolders({ files: now }: Disk, casesFolder: string, files: readonly FileChange[]): string[] {
  const all = new Set<string>();
  for (const { path } of files)
    for (let at = path.lastIndexOf('/'); at > casesFolder.length; at = path.lastIndexOf('/', at - 1))
      if (!now.look(path.slice(0, at))) all.add(path.slice(0, at));
  return [...all].toSorted();
}
