import { z } from 'zod';
import { sha256Of } from '../ledger/canonical.js';
import { type CalendarDay, calendarDay } from '../record/calendar-day.js';
import { type Change, type FileChange, type Keeping, type Worked, cannot } from './change.js';
import { findFarm, bytesOf, parsedJson } from './kept-file.js';
import { given } from '../record/given.js';
import { terminal } from '../problem/message.js';
import { workedOut } from './work-out.js';

/** So many entries of a farm are remembered. */
const mostEntries = 20;

const hash = z.string().regex(/^[0-9a-f]{64}$/);

/** What is remembered of an entry: what each file was (base64; null: it was not there) and what it became (SHA-256). */
const undoMemory = z.strictObject({
  what: z.string(),
  /** The machine's day of the entry. */
  on: calendarDay.optional(),
  files: z.array(z.strictObject({ file: z.string(), before: z.base64().nullable(), after: hash.nullable() })),
  /** Lines put behind files that only grow when it is taken back. */
  lines: z.array(z.strictObject({ file: z.string(), line: z.record(z.string(), z.unknown()) })).optional(),
  /** Of an entry on several farms: where it is remembered whole, under which number, and the SHA-256 of that memory. */
  with: z.strictObject({ farm: z.string(), entry: z.int().optional(), sha256: hash }).optional(),
});
type UndoMemory = z.infer<typeof undoMemory>;

/** An entry as a farm remembers it; of one that only says where it is whole, that one. */
export interface Entry {
  /** Its number on the farm; the later, the higher. */
  readonly number: number;
  readonly memory: UndoMemory;
  readonly sha256: string;
}

/** 0 is the one memory that was kept before there were several. */
const memoryPath = (casesFolder: string, farm: string, number: number): string =>
  `${casesFolder}/${farm}/.growdown/${number === 0 ? 'undo.json' : `undo/${number}.json`}`;

/** What is remembered of a farm, the latest first. */
function entriesOf({ files }: Pick<Keeping, 'files'>, casesFolder: string, farm: string): Entry[] {
  const read = (slug: string, number: number): Entry | undefined => {
    const bytes = bytesOf(files, memoryPath(casesFolder, slug, number));
    const memory = undoMemory.safeParse(bytes && parsedJson(bytes)).data;
    return bytes && memory && { number, memory, sha256: sha256Of(bytes) };
  };
  return numbersOf(files, casesFolder, farm).flatMap((number) => {
    const own = read(farm, number);
    const { with: at } = own?.memory ?? {};
    if (!own || !at) return own ?? [];
    const whole = read(at.farm, at.entry ?? 0);
    return whole?.sha256 === at.sha256 ? { ...whole, number } : [];
  });
}

function numbersOf(files: Keeping['files'], casesFolder: string, farm: string): number[] {
  const folder = `${casesFolder}/${farm}/.growdown/undo`;
  const names = files.look(folder) ? files.list(folder) : [];
  const numbers = names.flatMap(({ name }) => (/^\d+\.json$/.test(name) ? Number.parseInt(name, 10) : []));
  const first = files.look(memoryPath(casesFolder, farm, 0)) ? [0] : [];
  return [...first, ...numbers].toSorted((a, b) => b - a);
}

/**
 * What is to be remembered of a change on each of its farms: whole on the first, and on the others where that is. Of
 * one that takes an entry back, what was remembered of that goes, and so does the oldest where there are too many.
 * Names of files are kept from the cases folder on, so that the folder may be moved.
 */
export function memoryFiles(
  keeping: Pick<Keeping, 'files'>,
  casesFolder: string,
  { what, files, farms, undoes, lines = [] }: Change,
  on: CalendarDay,
): FileChange[] {
  const put = (farm: string, number: number, after: Uint8Array | undefined): FileChange => {
    const path = memoryPath(casesFolder, farm, number);
    return { file: path, path, before: bytesOf(keeping.files, path), after };
  };
  if (undoes !== undefined)
    return farms.flatMap((farm) =>
      entriesOf(keeping, casesFolder, farm)
        .filter(({ sha256 }) => sha256 === undoes)
        .map(({ number }) => put(farm, number, undefined)),
    );
  const inside = (path: string): string => path.slice(casesFolder.length + 1);
  const undone = lines.flatMap(({ path, undone: line }) => (line ? { file: inside(path), line } : []));
  const memory: UndoMemory = {
    what,
    on,
    files: files.map(({ path, before, after }) => ({
      file: inside(path),
      before: before === undefined ? null : Buffer.from(before).toString('base64'),
      after: after === undefined ? null : sha256Of(after),
    })),
    ...(undone.length > 0 ? { lines: undone } : {}),
  };
  let whole: UndoMemory['with'];
  return farms.flatMap((farm) => {
    const numbers = numbersOf(keeping.files, casesFolder, farm);
    const number = 1 + (numbers[0] ?? 0);
    const own: UndoMemory = whole ? { what, on, files: [], with: whole } : memory;
    const bytes = Buffer.from(`${JSON.stringify(own)}\n`);
    whole ??= { farm, entry: number, sha256: sha256Of(bytes) };
    const tooMany = numbers.slice(mostEntries - 1).map((old) => put(farm, old, undefined));
    return [put(farm, number, bytes), ...tooMany];
  });
}

/** A later entry that is based on another; the file from the cases folder on. */
interface Under {
  readonly farm: string;
  readonly entry: Entry;
  readonly file: string;
}

/**
 * The entries of a farm that are remembered, the latest first, each with the later ones that are based on it: those that
 * wrote one of its files since.
 */
export function rememberedOn(
  keeping: Keeping,
  farm: string,
): { readonly entry: Entry; readonly under: readonly Under[] }[] {
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return [];
  const { folder } = found.folder;
  return entriesOf(keeping, folder, farm).map((entry) => ({
    entry,
    under: restingOn(keeping, folder, entry),
  }));
}

function restingOn(keeping: Keeping, casesFolder: string, { memory, sha256 }: Entry): Under[] {
  const own = new Set(memory.files.map(({ file }) => file));
  const found = farmsIn(memory).flatMap((farm) => {
    const all = entriesOf(keeping, casesFolder, farm);
    const place = all.findIndex((one) => one.sha256 === sha256);
    return all.slice(0, Math.max(0, place)).flatMap((entry): Under[] => {
      const file = entry.memory.files.find((one) => own.has(one.file))?.file;
      return file === undefined ? [] : [{ farm, entry, file }];
    });
  });
  const hashes = found.map(({ entry }) => entry.sha256);
  return found.filter(({ entry }, at) => hashes.indexOf(entry.sha256) === at);
}

/** The entry of a number, the last one without. */
function numbered(all: readonly Entry[], number: number | undefined): Entry | undefined {
  return number === undefined ? all[0] : all.find((one) => one.number === number);
}

/**
 * An entry on a farm taken back, the last one where no number is given: its files become byte for byte what they were.
 *
 * A slip of the same day is taken back without more ado, one of an earlier day with who and why. Either way its seals
 * are withdrawn in the open: the ledger keeps what they said.
 *
 * Shape:   `day` is the machine's, as the seals bear it
 * Error:   `cannot` where a later entry is based on it, which is named, or a file has changed since, so that nothing written
 *          by hand is lost; refused where a record of another file would no longer be sound
 * Checked: tests/cli/putting-right.test.ts
 */
export function undoEntry(
  keeping: Keeping,
  farm: string,
  asked: {
    readonly number?: number | undefined;
    readonly day: CalendarDay;
    readonly by: string | undefined;
    readonly why: string | undefined;
  },
): Worked {
  const { number, day, by, why } = asked;
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const { folder, shown } = found.folder;
  const all = entriesOf(keeping, folder, farm);
  const entry = numbered(all, number);
  if (!entry)
    return number === undefined || all.length === 0
      ? cannot('keep.undo.nothing', { farm })
      : cannot('keep.undo.no-entry', { farm, entry: number });
  const { what, on, lines = [] } = entry.memory;
  const [rests] = restingOn(keeping, folder, entry);
  if (rests)
    return cannot('keep.undo.rests', {
      what,
      file: `${shown}/${rests.file}`,
      later: rests.entry.memory.what,
      day: rests.entry.memory.on ?? '',
      farm: rests.farm,
      entry: rests.entry.number,
    });
  if (on !== undefined && on !== day && (why === undefined || by === undefined))
    return cannot('keep.undo.sealed', { farm, what, day: on });
  const files: FileChange[] = [];
  for (const { file, before, after } of entry.memory.files.toReversed()) {
    const path = `${folder}/${file}`;
    const now = bytesOf(keeping.files, path);
    if ((now === undefined ? null : sha256Of(now)) !== after)
      return cannot('keep.undo.changed', { file: `${shown}/${file}`, what });
    const was = before === null ? undefined : Buffer.from(before, 'base64');
    files.push({ file: `${shown}/${file}`, path, before: now, after: was });
  }
  const change: Change = {
    what: terminal('keep.what.taken-back', { what }),
    farms: [...new Set([farm, ...farmsIn(entry.memory)])],
    files,
    remarks: [],
    withdraws: { ...given({ by }), why: why ?? terminal('keep.undo.same-day') },
    undoes: entry.sha256,
    lines: lines.map(({ file, line }) => ({ path: `${folder}/${file}`, now: line })),
  };
  // Before the last entry all stood without it; of what was written since, a record in another file may be based on it.
  const last = (of: string): string | undefined => entriesOf(keeping, folder, of)[0]?.sha256;
  if (change.farms.every((one) => last(one) === entry.sha256)) return { outcome: 'change', change };
  const worked = workedOut(change, { ...keeping, evenSo: true });
  return worked.outcome === 'change' ? { outcome: 'change', change } : worked;
}

/** The farms whose files an entry was written in, that of the farm asked first: the last one where no number is given. */
export function farmsOfEntry(keeping: Keeping, farm: string, number?: number): string[] {
  const entry = numbered(
    rememberedOn(keeping, farm).map((one) => one.entry),
    number,
  );
  return [...new Set([farm, ...(entry ? farmsIn(entry.memory) : [])])];
}

function farmsIn({ files }: UndoMemory): string[] {
  return [...new Set(files.map(({ file }) => file.slice(0, file.indexOf('/'))))];
}
