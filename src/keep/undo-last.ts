import type { FileChange, Keeping, Worked } from './change.js';
import { cannot } from './change.js';
import { hashOf } from './disk/hash-of.js';
import { recalledUndo } from './disk/undo-memory.js';
import { findFarm } from './find-kept.js';
import { bytesOf } from './kept-file.js';

/**
 * The last entry on a farm taken back: its files become byte for byte what they were. Once only.
 *
 * Error:   refused where a file has changed since, so that nothing written by hand is lost; refused where the entry is
 *          sealed, since a sealed record is corrected in the open and not taken away
 * Checked: tests/keep/carry-out.test.ts
 */
export function undoLast(keeping: Keeping, farm: string, { sealed }: { readonly sealed: boolean }): Worked {
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const { folder, shown } = found.folder;
  const memory = recalledUndo(keeping.files, folder, farm);
  if (!memory)
    return cannot(
      `nothing is remembered of ${farm} that could be taken back; only the last entry made by this program is`,
    );
  if (sealed)
    return cannot(
      `the last entry on ${farm} (${memory.what}) is sealed and is not taken back; correct it in the open with \`growdown correct\``,
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
    change: { what: `${memory.what} taken back`, farms: [farm], files, remarks: [], undoes: true },
  };
}
