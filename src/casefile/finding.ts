import type { RecordPath, Severity } from '../problem/problem.js';

/**
 * What a check says of one place in one record: a problem that does not yet know its file.
 *
 * The reader turns the path into file, line and column. `id`, `message` and `mend` are as in `Problem`;
 * every id stands in `shared/problems.json`.
 */
export interface Finding {
  readonly id: string;
  readonly severity: Severity;
  /** A path in the record, which is a path in the file. Where it is not written, its nearest parent is shown. */
  readonly path: RecordPath;
  /** What the carets point at: the last key of the path, or what it holds. */
  readonly at: 'key' | 'value';
  readonly message: string;
  readonly mend: string;
}
