import { z } from 'zod';
import { calendarDay } from '../../record/calendar-day.js';
import type { Change } from '../change.js';
import { bytesOf } from '../kept-file.js';
import type { Disk } from './disk.js';
import { hashOf } from './hash-of.js';

const hash = z.string().regex(/^[0-9a-f]{64}$/);

/** What is remembered of the last entry of a farm: what each file was (base64; null: it was not there) and what it became (SHA-256). */
export const undoMemory = z.strictObject({
  what: z.string(),
  /** The machine's day of the entry. */
  on: calendarDay.optional(),
  files: z.array(z.strictObject({ file: z.string(), before: z.base64().nullable(), after: hash.nullable() })),
});
export type UndoMemory = z.infer<typeof undoMemory>;

export function undoPath(casesFolder: string, farm: string): string {
  return `${casesFolder}/${farm}/.growdown/undo.json`;
}

/** Names of files are kept from the cases folder on, so that the folder may be moved. */
export function rememberUndo(disk: Disk, casesFolder: string, farm: string, { what, files }: Change): void {
  const memory: UndoMemory = {
    what,
    on: disk.today(),
    files: files.map(({ path, before, after }) => ({
      file: path.slice(casesFolder.length + 1),
      before: before === undefined ? null : Buffer.from(before).toString('base64'),
      after: after === undefined ? null : hashOf(after),
    })),
  };
  disk.replace(undoPath(casesFolder, farm), `${JSON.stringify(memory)}\n`);
}

export function forgetUndo(disk: Disk, casesFolder: string, farm: string): void {
  disk.remove(undoPath(casesFolder, farm));
}

export function recalledUndo(
  files: Disk['files'],
  casesFolder: string,
  farm: string,
): UndoMemory | undefined {
  const bytes = bytesOf(files, undoPath(casesFolder, farm));
  if (bytes === undefined) return undefined;
  try {
    return undoMemory.parse(JSON.parse(new TextDecoder().decode(bytes)));
  } catch {
    return undefined;
  }
}
