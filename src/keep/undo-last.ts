import type { CalendarDay } from '../record/calendar-day.js';
import type { FileChange, Keeping, Worked } from './change.js';
import { cannot } from './change.js';
import { hashOf } from './disk/hash-of.js';
import { recalledUndo } from './disk/undo-memory.js';
import { findFarm } from './find-kept.js';
import { bytesOf } from './kept-file.js';

/**
 * The last entry on a farm taken back: its files become byte for byte what they were. Once only.
 *
 * A slip of the same day is taken back without more ado, one of an earlier day with who and why. Either way its seals
 * are withdrawn in the open: the ledger keeps what they said.
 *
 * Shape:   `day` is the machine's, as the seals bear it
 * Error:   refused where a file has changed since, so that nothing written by hand is lost
 * Checked: tests/keep/carry-out.test.ts
 */
export function undoLast(
  keeping: Keeping,
  farm: string,
  {
    day,
    by,
    why,
  }: { readonly day: CalendarDay; readonly by: string | undefined; readonly why: string | undefined },
): Worked {
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const { folder, shown } = found.folder;
  const memory = recalledUndo(keeping.files, folder, farm);
  if (!memory)
    return cannot(
      `nothing is remembered of ${farm} that could be taken back; only the last entry made by this program is`,
    );
  const later = memory.on !== undefined && memory.on !== day;
  if (later && (why === undefined || by === undefined))
    return cannot(
      `the last entry on ${farm} (${memory.what}) was made on ${memory.on} and is sealed, expected a reason to take it back on another day: give \`--why\` and \`--by\`; the ledger keeps both`,
    );
  const files = memory.files.toReversed().map((entry): FileChange & { readonly asLeft: boolean } => {
    const path = `${folder}/${entry.file}`;
    const now = bytesOf(keeping.files, path);
    return {
      file: `${shown}/${entry.file}`,
      path,
      before: now,
      after: entry.before === null ? undefined : Buffer.from(entry.before, 'base64'),
      asLeft: now === undefined ? entry.after === null : hashOf(now) === entry.after,
    };
  });
  const changed = files.find(({ asLeft }) => !asLeft);
  if (changed)
    return cannot(
      `${changed.file} has changed since the last entry (${memory.what}), expected it as that entry left it; nothing was taken back. Change it by hand, or with \`growdown correct\``,
    );
  return {
    outcome: 'change',
    change: {
      what: `${memory.what} taken back`,
      farms: [farm],
      files,
      remarks: [],
      undoes: { ...(by === undefined ? {} : { by }), why: why ?? 'taken back the day it was made' },
    },
  };
}

/** The farms whose files the last entry on a farm was written in, that farm first. */
export function farmsOfLast(keeping: Keeping, farm: string): string[] {
  const found = findFarm(keeping, farm);
  const memory =
    found.outcome === 'found' ? recalledUndo(keeping.files, found.folder.folder, farm) : undefined;
  const others = (memory?.files ?? []).map(({ file }) => file.slice(0, file.indexOf('/')));
  return [...new Set([farm, ...others])];
}
