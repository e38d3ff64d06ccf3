import { z } from 'zod';
import { sha256Of } from '../ledger/canonical.js';
import { type CalendarDay, calendarDay } from '../record/calendar-day.js';
import { type Change, type FileChange, type Keeping, type Worked, cannot } from './change.js';
import { findFarm, bytesOf } from './kept-file.js';
import { given } from '../record/given.js';
import { terminal } from '../problem/message.js';

const hash = z.string().regex(/^[0-9a-f]{64}$/);

/** What is remembered of the last entry of a farm: what each file was (base64; null: it was not there) and what it became (SHA-256). */
const undoMemory = z.strictObject({
  what: z.string(),
  /** The machine's day of the entry. */
  on: calendarDay.optional(),
  files: z.array(z.strictObject({ file: z.string(), before: z.base64().nullable(), after: hash.nullable() })),
  /** Of an entry on several farms: where it is remembered whole, and the SHA-256 of that memory. */
  with: z.strictObject({ farm: z.string(), sha256: hash }).optional(),
});
type UndoMemory = z.infer<typeof undoMemory>;

/** A memory as it lies; of one that only says where it is whole, that one. */
interface Recalled {
  readonly memory: UndoMemory;
  readonly sha256: string;
}

function recalled(
  { files }: Pick<Keeping, 'files'>,
  casesFolder: string,
  farm: string,
): Recalled | undefined {
  const read = (slug: string): Recalled | undefined => {
    const bytes = bytesOf(files, undoPath(casesFolder, slug));
    const memory = undoMemory.safeParse(bytes && parsedJson(bytes)).data;
    return bytes && memory && { memory, sha256: sha256Of(bytes) };
  };
  const own = read(farm);
  if (!own?.memory.with) return own;
  const whole = read(own.memory.with.farm);
  return whole?.sha256 === own.memory.with.sha256 ? whole : undefined;
}

function parsedJson(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return undefined;
  }
}

const undoPath = (casesFolder: string, farm: string): string => `${casesFolder}/${farm}/.growdown/undo.json`;

/**
 * What is to be remembered of a change on each of its farms: whole on the first, and on the others where that is. Of
 * one that takes an entry back, what was remembered of that goes. Names of files are kept from the cases folder on, so
 * that the folder may be moved.
 */
export function memoryFiles(
  keeping: Pick<Keeping, 'files'>,
  casesFolder: string,
  { what, files, farms, undoes }: Change,
  on: CalendarDay,
): FileChange[] {
  const at = (farm: string): Omit<FileChange, 'after'> => {
    const path = undoPath(casesFolder, farm);
    return { file: path, path, before: bytesOf(keeping.files, path) };
  };
  const [first, ...others] = farms;
  if (first === undefined) return [];
  if (undoes) {
    const undone = recalled(keeping, casesFolder, first)?.sha256;
    const isOf = (farm: string): boolean => recalled(keeping, casesFolder, farm)?.sha256 === undone;
    return farms.filter(isOf).map((farm) => ({ ...at(farm), after: undefined }));
  }
  const bytes = (memory: UndoMemory): Uint8Array => Buffer.from(`${JSON.stringify(memory)}\n`);
  const whole = bytes({
    what,
    on,
    files: files.map(({ path, before, after }) => ({
      file: path.slice(casesFolder.length + 1),
      before: before === undefined ? null : Buffer.from(before).toString('base64'),
      after: after === undefined ? null : sha256Of(after),
    })),
  });
  const other = bytes({ what, on, files: [], with: { farm: first, sha256: sha256Of(whole) } });
  return [{ ...at(first), after: whole }, ...others.map((farm) => ({ ...at(farm), after: other }))];
}

/**
 * The last entry on a farm taken back: its files become byte for byte what they were. Once only.
 *
 * A slip of the same day is taken back without more ado, one of an earlier day with who and why. Either way its seals
 * are withdrawn in the open: the ledger keeps what they said.
 *
 * Shape:   `day` is the machine's, as the seals bear it
 * Error:   refused where a file has changed since, so that nothing written by hand is lost
 * Checked: tests/keep/commit-change.test.ts
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
  const memory = recalled(keeping, folder, farm)?.memory;
  if (!memory) return cannot('keep.undo.nothing', { farm });
  const { what, on } = memory;
  if (on !== undefined && on !== day && (why === undefined || by === undefined))
    return cannot('keep.undo.sealed', { farm, what, day: on });
  const files = memory.files.toReversed().map((entry): FileChange & { readonly asLeft: boolean } => {
    const path = `${folder}/${entry.file}`;
    const now = bytesOf(keeping.files, path);
    return {
      file: `${shown}/${entry.file}`,
      path,
      before: now,
      after: entry.before === null ? undefined : Buffer.from(entry.before, 'base64'),
      asLeft: now === undefined ? entry.after === null : sha256Of(now) === entry.after,
    };
  });
  const changed = files.find(({ asLeft }) => !asLeft);
  if (changed) return cannot('keep.undo.changed', { file: changed.file, what });
  return {
    outcome: 'change',
    change: {
      what: terminal('keep.what.taken-back', { what }),
      farms: farmsIn(memory, farm),
      files,
      remarks: [],
      undoes: { ...given({ by }), why: why ?? terminal('keep.undo.same-day') },
    },
  };
}

/** The farms whose files the last entry on a farm was written in, that farm first. */
export function farmsOfLast(keeping: Keeping, farm: string): string[] {
  const found = findFarm(keeping, farm);
  return farmsIn(
    found.outcome === 'found' ? recalled(keeping, found.folder.folder, farm)?.memory : undefined,
    farm,
  );
}

function farmsIn(memory: UndoMemory | undefined, farm: string): string[] {
  const others = (memory?.files ?? []).map(({ file }) => file.slice(0, file.indexOf('/')));
  return [...new Set([farm, ...others])];
}
