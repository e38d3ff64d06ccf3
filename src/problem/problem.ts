/** How bad: an error refuses the file; a warning and a note never do. */
export type Severity = 'error' | 'warning' | 'note';

/** A step into a parsed file: a key or a list index, as in `['visits', 2, 'found', 'a', 'top']`. */
export type RecordPath = readonly (string | number)[];

/** Where in a file: lines and columns count from 1, columns in characters; `endColumn` is the first column after. */
export type Place = Readonly<{ line: number; column: number; endColumn?: number }>;

/**
 * What is wrong and how to put it right, in words.
 *
 * `id` is permanent: `area/what-is-wrong`; every id is in the catalogue, `shared/problems.json`.
 */
export interface Message {
  readonly id: string;
  /** Complete alone: what was found, what is expected. */
  readonly message: string;
  readonly mend: string;
}

/** In a record: a path, which is a path in its file; where it is not written, its nearest parent is shown. */
export interface InRecord {
  readonly path: RecordPath;
  /** What the carets point at: the last key of the path, or what it holds. */
  readonly at: 'key' | 'value';
}

/** In a text; without a place, the text as a whole. */
export interface InText {
  readonly place?: Place;
  /** What in the record it is about; where that is what is missing, the key that is not written. */
  readonly path?: RecordPath;
}

/** One thing wrong in a record or a text that does not yet know its file. */
export type Finding<Where = InRecord> = Message & Where & { readonly severity: Severity };

/** One thing wrong with what the user keeps: a value, never a thrown string. */
export interface Problem extends Message, InText {
  readonly severity: Severity;
  /** As the user would type it, with `/`; a folder where the trouble is with a folder. */
  readonly file: string;
  /** The line of the file the trouble is on, whole, without its line end. */
  readonly excerpt?: string;
}
