import { createHash } from 'node:crypto';
import type { z } from 'zod';
import { animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { farm as farmSchema } from '../record/farm.js';
import { given } from '../record/given.js';
import { hiddenSign } from '../record/signs.js';
import type { FarmRecord } from '../record/practice.js';
import { checkText } from './check/check-text.js';
import type { FileKind } from './explain/explain-key.js';
import type { FoundFarm } from './find-farms.js';
import type { FolderEntry } from './folder-entries.js';
import { type FarmReading, readFarm } from './read-farm.js';
import { readRecordFile, type RecordFile } from './read-record-file.js';
import type { CaseFiles } from './source-text.js';
import { wantedBy } from './wanted.js';

/** What was made of farms earlier, as plain data by name and key: what is not there, or not whole, is made again. */
export interface FarmMemory {
  readonly recall: (name: string, key: string) => unknown;
  /** The hash of what `recall` would give; undefined where it would give nothing. */
  readonly hashOf: (name: string, key: string) => string | undefined;
  readonly keep: (name: string, key: string, value: unknown) => void;
  /** Forgets the farms that are not among these. */
  readonly only: (farms: readonly string[]) => void;
}

/** A key out of all that something is made from. */
export function entryKey(...parts: readonly unknown[]): string {
  return createHash('sha256').update(JSON.stringify(parts)).digest('base64');
}

/** How a farm is read and remembered. */
export interface Remembering {
  readonly today: CalendarDay;
  readonly pictures: 'sized' | 'hashed';
  /** Whether a picture that has its size, times and place on the disk is taken for the one it was. */
  readonly trustsPictures: boolean;
  readonly memory: FarmMemory;
  /** Told of each farm that is parsed, while its records are at hand. */
  readonly onRead?: (farm: FarmRecord, key: string) => void;
}

/** The records of a farm as they are kept: all but the way back into their files. */
interface KeptRecords extends Omit<FarmRecord, 'source' | 'cases'> {
  readonly cases: readonly Omit<FarmRecord['cases'][number], 'source'>[];
}

/**
 * A farm as it was read earlier, where its folder holds the same to the byte; else read anew. On another day its records
 * are checked again and not parsed again. They are made when they are asked for, and let go.
 *
 * Checked: tests/run/remembered.test.ts
 */
export function rememberedFarm(
  files: CaseFiles,
  found: FoundFarm,
  { today, pictures, trustsPictures, memory, onRead }: Remembering,
): FarmReading {
  const key = keyOfFarm(files, found, pictures === 'hashed' && !trustsPictures);
  if (key === undefined) return readFarm(files, found, today, pictures);
  const [records, reading] = [`${found.slug}/records`, `${found.slug}/reading-${pictures}`];
  const recalled = (): KeptRecords | undefined => memory.recall(records, key) as KeptRecords | undefined;
  const again = (): FarmReading => {
    const kept = recalled();
    return readFarm(files, found, today, pictures, kept && readKept(found, kept));
  };
  const onDay = entryKey(key, today);
  type Kept = Pick<FarmReading, 'problems' | 'filesRead' | 'known'>;
  let told = memory.recall(reading, onDay) as Kept | undefined;
  if (!told) {
    const read = again();
    const { record, problems, filesRead, known } = read;
    told = { problems, filesRead, ...given({ known }) };
    memory.keep(reading, onDay, told);
    if (record) {
      if (memory.hashOf(records, key) === undefined) memory.keep(records, key, record);
      onRead?.(record, key);
      // Where the disk keeps nothing the records stay.
      if (memory.hashOf(records, key) === undefined) return { ...read, key };
    }
  }
  const { known } = told;
  const load = (): FarmRecord => {
    const whole = recalled();
    return whole ? recordOf(files, found, whole) : again().record!;
  };
  let seals: Pick<FarmReading, 'seals' | 'sealsWith'> | undefined;
  return {
    ...told,
    known,
    key,
    record: known && lettingGo(found.slug, load),
    seals: () => (seals ??= again()).seals(),
    sealsWith: (ledger) => (seals ??= again()).sealsWith(ledger),
  };
}

/** A farm's records that are made when one is read, and let go when nobody holds them. */
function lettingGo(slug: string, load: () => FarmRecord): FarmRecord {
  let held: WeakRef<FarmRecord> | undefined;
  const whole = (): FarmRecord => {
    const there = held?.deref() ?? load();
    held = new WeakRef(there);
    return there;
  };
  const parts = ['farm', 'narrative', 'source', 'cases'] as const;
  const read = parts.map((part) => [part, { get: () => whole()[part], enumerable: true }] as const);
  return Object.defineProperties({ slug } as FarmRecord, Object.fromEntries(read));
}

/**
 * The hash of all in its folder that a farm's reading and its papers are made from: names, the bytes of records and ledger, of
 * pictures that they were not written since. Undefined where that cannot be told without reading all: a link to a folder,
 * a refusal of the disk, or pictures beside a ledger that are to be hashed.
 */
function keyOfFarm(
  files: CaseFiles,
  { entry, farmFile, animals, problems }: FoundFarm,
  hashesPictures: boolean,
): string | undefined {
  const hash = createHash('sha256');
  const take = (...parts: readonly unknown[]): void => void hash.update(`${JSON.stringify(parts)}\n`);
  let [pictures, ledger] = [false, false];
  const walk = (folder: string): boolean =>
    files.list(folder).every(({ name, kind }) => {
      const path = `${folder}/${name}`;
      if (kind === 'folder') {
        take(name);
        return walk(path) && (take('..'), true);
      }
      const look = files.look(path);
      if (look?.kind === 'folder' || (look && look.mark === undefined)) return false;
      const isText = look?.kind === 'file' && /\.(?:md|jsonl)$/.test(name) && look.bytes <= mostHashed;
      take(
        name,
        kind,
        look?.kind,
        look?.bytes,
        isText ? '' : look?.mark,
        kind === 'link' && files.realPath(path),
      );
      if (isText) hash.update(files.read(path));
      if (name.endsWith('.jsonl')) ledger = true;
      else if (!isText) pictures = true;
      return true;
    });
  take(entry.path, entry.shown, files.realPath(entry.path), farmFile, animals, problems);
  try {
    return walk(entry.path) && !(hashesPictures && pictures && ledger) ? hash.digest('base64') : undefined;
  } catch {
    return undefined;
  }
}

/** Of a larger file that it was not written since. */
const mostHashed = 4e6;

function recordOf(files: CaseFiles, found: FoundFarm, kept: KeptRecords): FarmRecord {
  const entries = new Map(found.animals.map(({ slug, entry }) => [slug, entry]));
  return {
    ...kept,
    source: wayBack(files, found.farmFile!, farmSchema, 'farm').source,
    cases: kept.cases.map((one) => ({
      ...one,
      source: wayBack(files, entries.get(one.slug)!, animal, 'animal').source,
    })),
  };
}

/** Files out of what was parsed earlier. */
function readKept(found: FoundFarm, { farm, narrative, cases }: KeptRecords): typeof readRecordFile {
  const bySlug = new Map(cases.map((one) => [one.slug, { record: one.animal, narrative: one.narrative }]));
  const byFile = new Map<string, { readonly record: unknown; readonly narrative: string } | undefined>(
    found.animals.map(({ slug, entry }) => [entry.shown, bySlug.get(slug)]),
  );
  byFile.set(found.farmFile!.shown, { record: farm, narrative });
  return (files, entry, schema, kind) => {
    const one = byFile.get(entry.shown);
    if (!one) return readRecordFile(files, entry, schema, kind);
    const record = one.record as z.output<typeof schema>;
    const { remarks, ...way } = wayBack(files, entry, schema, kind);
    const isClean =
      hiddenSign(one.narrative) === undefined && checkText(wantedBy(schema), record).next().done;
    return { outcome: 'record', ...one, record, ...way, remarks: isClean ? [] : remarks() };
  };
}

type FileRead = Extract<RecordFile<unknown>, { outcome: 'record' }>;

/** The way back into a file, which is read again when the first place in it is asked for. */
function wayBack(
  files: CaseFiles,
  entry: Pick<FolderEntry, 'path' | 'shown'>,
  schema: z.ZodType,
  kind: FileKind,
): Pick<FileRead, 'source' | 'problemOf'> & { readonly remarks: () => FileRead['remarks'] } {
  let read: RecordFile<unknown> | undefined;
  const file = () => {
    read ??= readRecordFile(files, entry, schema, kind);
    return read.outcome === 'record' ? read : undefined;
  };
  return {
    source: { file: entry.shown, placeOf: (path) => file()?.source.placeOf(path) ?? nowhere },
    problemOf: (finding) => file()?.problemOf(finding) ?? { ...finding, file: entry.shown, place: nowhere },
    remarks: () => file()?.remarks ?? [],
  };
}

/** In a file that was changed after it was read. */
const nowhere = { line: 1, column: 1 };
