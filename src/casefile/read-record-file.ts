import type { z } from 'zod';
import type { Finding, Problem } from '../problem/problem.js';
import type { RecordSource } from '../record/practice.js';
import type { CaseFiles } from './source-text.js';
import type { FileKind } from './explain/explain-key.js';
import { problemOf } from './finding.js';
import type { FolderEntry } from './folder-entries.js';
import { readCaseFile } from './read-case-file.js';
import { readText } from './read-text.js';
import { business, type Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { checkBusiness } from './check/check-farm.js';

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
  entry: FolderEntry,
  schema: S,
  kind: FileKind,
): RecordFile<z.output<S>> {
  const text = readText(files, entry.path);
  if (text.outcome === 'trouble') {
    return { outcome: 'refused', problems: [problemOf(text.trouble, entry.shown, text.source)] };
  }
  const { source } = text;
  const reading = readCaseFile(source, schema, kind);
  if (reading.outcome === 'troubles') {
    return {
      outcome: 'refused',
      problems: reading.troubles.map((trouble) => problemOf(trouble, entry.shown, source)),
    };
  }
  return {
    outcome: 'record',
    record: reading.record,
    narrative: reading.narrative,
    source: { file: entry.shown, placeOf: reading.placeOf },
    problemOf: (finding) => problemOf(reading.located(finding), entry.shown, source),
  };
}

interface BusinessReading {
  /** Undefined where the file has an error; empty where there is no file, since it is optional. */
  readonly record: Business | undefined;
  readonly narrative: string;
  readonly problems: readonly Problem[];
  readonly filesRead: number;
}

export function readBusiness(
  files: CaseFiles,
  entry: FolderEntry | undefined,
  today: CalendarDay,
): BusinessReading {
  if (!entry) return { record: {}, narrative: '', problems: [], filesRead: 0 };
  const file = readRecordFile(files, entry, business, 'business');
  if (file.outcome === 'refused')
    return { record: undefined, narrative: '', problems: file.problems, filesRead: 1 };
  const problems = checkBusiness(file.record, { today }).map(file.problemOf);
  const sound = problems.every(({ severity }) => severity !== 'error');
  return { record: sound ? file.record : undefined, narrative: file.narrative, problems, filesRead: 1 };
}
