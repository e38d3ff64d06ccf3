import type { Place, RecordPath } from '../problem/problem.js';
import type { Animal } from './animal.js';
import type { Business } from './business.js';
import type { Farm } from './farm.js';

/** The file a record was read from, and the way back to a place in it. */
export interface RecordSource {
  /** As the user would type it, with `/`. */
  readonly file: string;
  /** The place of a key or value; its nearest parent where the path itself is not written. Worked out on demand. */
  readonly placeOf: (path: RecordPath) => Place;
}

/** One animal's case file, checked. */
export interface CaseRecord {
  /** The file's name without `.md`. */
  readonly slug: string;
  readonly animal: Animal;
  /** The Markdown under the front matter, as written. */
  readonly narrative: string;
  readonly source: RecordSource;
}

/** One farm's folder, checked; animals in the order of their slugs. */
export interface FarmRecord {
  readonly slug: string;
  readonly farm: Farm;
  readonly narrative: string;
  readonly source: RecordSource;
  readonly cases: readonly CaseRecord[];
}

/** All that the trimmer keeps: the farms that read without an error, in the order of their slugs. */
export interface Practice {
  readonly business: Business;
  /** The narrative of `business.md`; empty without one. */
  readonly narrative: string;
  readonly farms: readonly FarmRecord[];
}
