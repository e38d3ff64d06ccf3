import type { z } from 'zod';
import type { Finding, Problem } from '../problem/problem.js';
import type { RecordSource } from '../record/practice.js';
import type { CaseFiles } from './source-text.js';
import type { FileKind } from './explain/explain-key.js';
import { problemOf } from './finding.js';
import type { FolderEntry } from './folder-entries.js';
import { readCaseFile } from './read-case-file.js';
import { readText } from './read-text.js';

export type RecordFile<T> =
  | { readonly outcome: 'refused'; readonly problems: readonly Problem[] }
  | {
      readonly outcome: 'record';
      readonly record: T;
      readonly narrative: string;
      readonly source: RecordSource;
      /** A check's finding as a problem of this file. */
      readonly problemOf: (finding: Finding) => Problem;
    };

/** One file from disk: its bytes, its text, its shape. What it says is checked by others. */
export function readRecordFile<S extends z.ZodType>(
  files: CaseFiles,
  { path, shown: file }: Pick<FolderEntry, 'path' | 'shown'>,
  schema: S,
  kind: FileKind,
): RecordFile<z.output<S>> {
  const text = readText(files, path);
  const { source } = text;
  if (text.outcome === 'trouble')
    return { outcome: 'refused', problems: [problemOf(text.trouble, file, source)] };
  const reading = readCaseFile(text.source, schema, kind);
  if (reading.outcome === 'troubles')
    return { outcome: 'refused', problems: reading.troubles.map((one) => problemOf(one, file, source)) };
  const { record, narrative, placeOf, located } = reading;
  return {
    outcome: 'record',
    record,
    narrative,
    source: { file, placeOf },
    problemOf: (finding) => problemOf(located(finding), file, source),
  };
}
