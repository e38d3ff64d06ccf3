/** How bad: an error refuses the file; a warning and a note never do. */
export type Severity = 'error' | 'warning' | 'note';

/** A step into a parsed file: a key or a list index, as in `['visits', 2, 'found', 'a', 'top']`. */
export type RecordPath = readonly (string | number)[];

/** Where in a file: lines and columns count from 1, columns in characters; `endColumn` is the first column after. */
export interface Place {
  readonly line: number;
  readonly column: number;
  readonly endColumn?: number;
}

/**
 * One thing wrong with what the user keeps: a value, never a thrown string.
 *
 * `message` alone is complete (what was found, what is expected); `mend` says how to put it right.
 * `id` is permanent: `area/what-is-wrong`; every id stands in the catalogue.
 */
export interface Problem {
  readonly id: string;
  readonly severity: Severity;
  /** As the user would type it, with `/`; a folder where the trouble is with a folder. */
  readonly file: string;
  readonly place?: Place;
  readonly message: string;
  readonly mend: string;
  /** The line of the file the trouble stands on, whole, without its line end. */
  readonly excerpt?: string;
}
