import type { z } from 'zod';
import type { Finding, InText, Problem } from '../problem/problem.js';
import type { RecordSource } from '../record/practice.js';
import type { CaseFiles, SourceText } from './source-text.js';
import type { FileKind } from './explain/explain-key.js';
import { problemOf } from './finding.js';
import type { FolderEntry } from './folder-entries.js';
import { readCaseFile } from './read-case-file.js';
import { checkText } from './check/check-text.js';
import { warn } from './check/check-context.js';
import { readText } from './read-text.js';
import { wantedBy } from './wanted.js';
import { hiddenSign } from '../record/signs.js';

export type RecordFile<T> =
  | { readonly outcome: 'refused'; readonly problems: readonly Problem[] }
  | {
      readonly outcome: 'record';
      readonly record: T;
      readonly narrative: string;
      readonly source: RecordSource;
      /** What its text holds that none should: warnings. */
      readonly remarks: readonly Problem[];
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
  const asProblem = (finding: Finding): Problem => problemOf(located(finding), file, source);
  return {
    outcome: 'record',
    record,
    narrative,
    source: { file, placeOf },
    remarks: [
      ...[...checkText(wantedBy(schema), record)].map(asProblem),
      ...signsBelow(text.source, narrative).map((one) => problemOf(one, file, source)),
    ],
    problemOf: asProblem,
  };
}

/** A sign of that kind in the words below the front matter. */
function signsBelow({ text, placeAt }: SourceText, narrative: string): Finding<InText>[] {
  const sign = hiddenSign(narrative);
  if (sign === undefined) return [];
  const at = text.lastIndexOf(String.fromCharCode(Number.parseInt(sign.slice(2), 16)));
  const { at: _at, path: _path, ...said } = warn('hidden-sign', [], { sign });
  return [{ ...said, place: placeAt(at, at + 1) }];
}
