import { cannot, type Change, type FileChange, type Keeping, type Not, type Worked } from '../change.js';
import { findFolder, bytesOf } from '../kept-file.js';
import { memoryFiles } from '../undo.js';
import type { Disk } from './disk.js';
import { alone, writeWhole } from './journal.js';
import { type FarmSealed, sealsOfChange, wholeLines } from './seal-farm.js';
import { terminal } from '../../problem/message.js';
import type { CalendarDay } from '../../record/calendar-day.js';

export type CarriedOut = {
  /** To be said whatever the outcome: what was broken off before and was taken back now, and the like. */
  readonly told: readonly string[];
} & (
  | {
      readonly outcome: 'written';
      readonly change: Change;
      /** What was sealed by it, farm by farm. */
      readonly sealed: readonly FarmSealed[];
    }
  | Not
);

/** A file somebody else saves while the change is worked out makes it be worked out afresh, so often at most. */
const mostTries = 8;

/**
 * Works a change out and writes it, so that no other writing is lost and no half of it is ever there.
 *
 * Each farm's folder is locked first and what was broken off there taken back; then its files are read, the change and
 * its seals are worked out from them, each file is checked against what it was worked out from, and only then is all of it
 * written by way of the journal. A program that knows no lock, such as an editor, is caught by that last look; what it
 * saves in the instant between look and replacing is not.
 *
 * Shape:   `work` is called under the lock with the files as they lie, again whenever one has changed meanwhile
 *          `undoing`: the last entry is to be taken back; where that was broken off, taking that back is all
 * Error:   never throws for what the file system does; the message says what is on the disk
 * Checked: tests/keep/commit-change.test.ts, tests/keep/two-programs.test.ts, tests/keep/every-step.test.ts
 */
export async function commitChange(
  disk: Disk,
  keeping: Keeping,
  farms: readonly string[],
  work: (now: Keeping) => Worked,
  { undoing = false }: { readonly undoing?: boolean } = {},
): Promise<CarriedOut> {
  const now = { ...keeping, files: disk.files };
  const found = findFolder(now);
  if (found.outcome !== 'found') return { ...found, told: [] };
  const isKnown = (slug: string): boolean => found.farms.some((farm) => farm.slug === slug);
  // Who makes a farm holds the cases folder.
  const homes = farms.length > 0 ? farms.map((slug) => (isKnown(slug) ? slug : '')) : [''];
  const done = await alone(disk, found.folder, homes, ({ told, tookBack, holds }): CarriedOut => {
    const last = undoing ? tookBack.find(({ undo }) => !undo) : undefined;
    if (last) {
      const what = terminal('keep.what.taken-back', { what: last.what });
      const change = { what, farms, files: [], remarks: [] };
      return { outcome: 'written', change, told, sealed: [] };
    }
    for (let tries = 0; tries < mostTries; tries += 1) {
      const worked = work(now);
      if (worked.outcome !== 'change') return { ...worked, told };
      const { change } = worked;
      const seals = sealsOfChange(now, change, disk.today());
      if (seals.outcome !== 'sealed') return { ...seals, told };
      const files = [
        ...change.files,
        ...linesPut(now, change, disk.today()),
        ...memoryFiles(now, found.folder, change, disk.today()),
        ...seals.ledgers,
      ];
      if (!files.every((file) => isAsBefore(disk, file))) continue;
      if (!holds()) return { ...cannot('keep.disk.taken-over-meanwhile'), told };
      const named = { what: change.what, undo: change.undoes !== undefined };
      const put = writeWhole(disk, found.folder, homes.toSorted()[0]!, named, files);
      return put.outcome === 'cannot'
        ? { ...put, told }
        : { outcome: 'written', change, told: [...told, ...put.told], sealed: seals.sealed };
    }
    return { ...cannot('keep.disk.saved-again'), told };
  });
  return 'told' in done ? done : { ...done, told: [] };
}

/** Each file that only grows, with the lines of the change behind it. */
function linesPut({ files }: Keeping, { lines = [] }: Change, on: CalendarDay): FileChange[] {
  return lines.flatMap(({ path, now }) => {
    if (!now) return [];
    const before = bytesOf(files, path);
    const text = Buffer.from(before ?? []).toString();
    return {
      file: path,
      path,
      before,
      after: Buffer.from(`${wholeLines(text)}${JSON.stringify({ on, ...now })}\n`),
    };
  });
}

function isAsBefore(disk: Disk, { path, before }: FileChange): boolean {
  const now = bytesOf(disk.files, path);
  if (now === undefined || before === undefined)
    return now === before && (before !== undefined || !disk.files.look(path));
  return Buffer.compare(now, before) === 0;
}
