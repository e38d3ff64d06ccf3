import type { z } from 'zod';
import type { CaseFiles } from '../casefile/case-files.js';
import type { FileKind } from '../casefile/explain/group-words.js';
import type { FolderEntry } from '../casefile/folder-entries.js';
import { readRecordFile } from '../casefile/read-record-file.js';
import { asIf } from '../casefile/as-if.js';
import type { Worked } from './change.js';

/** One case file open for a change: its bytes as they lie and its record, read from those very bytes. */
export interface KeptFile<S extends z.ZodType = z.ZodType> {
  readonly schema: S;
  readonly kind: FileKind;
  readonly file: string;
  readonly path: string;
  readonly bytes: Uint8Array;
  /** A byte order mark where the file begins with one, which is kept; else empty. */
  readonly mark: string;
  /** The text after the mark. */
  readonly text: string;
  readonly record: z.output<S>;
  readonly narrative: string;
}

export type Opened<S extends z.ZodType> =
  { readonly outcome: 'open'; readonly kept: KeptFile<S> } | Exclude<Worked, { outcome: 'change' }>;

/** Reads a case file to change it. One that does not read is not changed: its problems are told. */
export function openKept<S extends z.ZodType>(
  files: CaseFiles,
  { path, shown }: Pick<FolderEntry, 'path' | 'shown'>,
  schema: S,
  kind: FileKind,
): Opened<S> {
  const bytes = bytesOf(files, path);
  const still = bytes === undefined ? files : asIf(files, [{ path, after: bytes }]);
  const entry: FolderEntry = { name: path.slice(path.lastIndexOf('/') + 1), kind: 'file', path, shown };
  const read = readRecordFile(still, entry, schema, kind);
  if (read.outcome === 'refused') return read;
  const whole = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const mark = whole.startsWith('\ufeff') ? '\ufeff' : '';
  return {
    outcome: 'open',
    kept: {
      schema,
      kind,
      file: shown,
      path,
      bytes: bytes ?? new Uint8Array(),
      mark,
      text: whole.slice(mark.length),
      record: read.record,
      narrative: read.narrative,
    },
  };
}

/** Undefined where it cannot be read; the reader then says why. */
export function bytesOf(files: CaseFiles, path: string): Uint8Array | undefined {
  try {
    return files.look(path)?.kind === 'file' ? files.read(path) : undefined;
  } catch {
    return undefined;
  }
}
