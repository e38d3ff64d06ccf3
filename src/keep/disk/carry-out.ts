import type { Change, FileChange, Keeping, Worked } from '../change.js';
import { cannot } from '../change.js';
import { findFolder } from '../find-kept.js';
import { bytesOf } from '../kept-file.js';
import type { Disk } from './disk.js';
import { brokenBefore, type FarmSealed, sealChange } from './seal-change.js';
import { type Lock, underLocks } from './under-locks.js';
import { forgetUndo, rememberUndo } from './undo-memory.js';

export type CarriedOut =
  | {
      readonly outcome: 'written';
      readonly change: Change;
      readonly told: readonly string[];
      /** What was sealed by it, farm by farm. */
      readonly sealed: readonly FarmSealed[];
    }
  | Exclude<Worked, { outcome: 'change' }>;

/** A file somebody else saves while the change is worked out makes it be worked out afresh, so often at most. */
const mostTries = 8;

/**
 * Works a change out and writes it, so that no other writing is lost.
 *
 * Each farm's folder is locked first, then its files are read, the change is worked out from them, each file is
 * held against what it was worked out from, and only then is one replaced. A program that knows no lock, such as an
 * editor, is caught by that last look; what it saves in the instant between look and replacing is not. What was
 * written is then sealed, still under the lock; should the machine die before, it is unsealed, and the next writing
 * into its file or `growdown seal` seals it.
 *
 * Shape:   `work` is called under the lock, again whenever a file has changed meanwhile
 * Error:   what the file system throws where it cannot write; a file is then whole, old or new
 * Checked: tests/keep/carry-out.test.ts, tests/keep/two-programs.test.ts
 */
export async function carryOut(
  disk: Disk,
  keeping: Keeping,
  farms: readonly string[],
  work: () => Worked,
): Promise<CarriedOut> {
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return found;
  const known = farms.filter((slug) => found.farms.some((farm) => farm.slug === slug)).toSorted();
  const folders = known.length > 0 ? known.map((slug) => `${found.folder}/${slug}`) : [found.folder];
  return await underLocks(disk, folders, (locks) => underLock(disk, keeping, found.folder, locks, work));
}

function underLock(
  disk: Disk,
  keeping: Keeping,
  casesFolder: string,
  locks: readonly Lock[],
  work: () => Worked,
): CarriedOut {
  const told = locks.flatMap((lock) => lock.told);
  for (let tries = 0; tries < mostTries; tries += 1) {
    const worked = work();
    if (worked.outcome !== 'change') return worked;
    const { change } = worked;
    if (!change.files.every((file) => isAsBefore(disk, file))) continue;
    if (!locks.every((lock) => lock.holds()))
      return cannot('another program took over while this one was held up; nothing was written. Do it again');
    const broken = change.undoes ? brokenBefore(keeping, change) : new Map<string, ReadonlySet<number>>();
    for (const { path, after } of change.files) {
      if (after === undefined) disk.remove(path);
      else disk.replace(disk.files.realPath(path) ?? path, after);
    }
    const kept = undoKept(disk, casesFolder, change);
    const { sealed, said } = sealChange(disk, keeping, change, broken);
    return { outcome: 'written', change, told: [...told, ...kept, ...said], sealed };
  }
  return cannot(
    'the file is being saved by another program again and again; nothing was written. Close it there, then do this again',
  );
}

/** The entry itself is written by now: where what it was cannot be remembered, that is said and no more. */
function undoKept(disk: Disk, casesFolder: string, change: Change): string[] {
  const [farm] = change.farms;
  if (farm === undefined) return [];
  try {
    if (change.undoes) forgetUndo(disk, casesFolder, farm);
    else rememberUndo(disk, casesFolder, farm, change);
    return [];
  } catch {
    return [
      'the entry is written; what was there before could not be remembered, so that `growdown undo` cannot take it back',
    ];
  }
}

function isAsBefore(disk: Disk, { path, before }: FileChange): boolean {
  const now = bytesOf(disk.files, path);
  if (now === undefined || before === undefined)
    return now === before && (before !== undefined || !disk.files.look(path));
  return Buffer.compare(now, before) === 0;
}
