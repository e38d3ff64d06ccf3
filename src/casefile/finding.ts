import type { RecordPath, Severity, Place, Problem } from '../problem/problem.js';
import type { SourceText } from './source-text.js';
import { PlainScalar } from './parse-yaml.js';

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

/** What is wrong in one file that does not yet know the file's name. Without a place: the file as a whole. */
export interface Trouble {
  readonly id: string;
  readonly severity: Severity;
  readonly message: string;
  readonly mend: string;
  readonly place?: Place;
}

/** A trouble with its file and the line it stands on. */
export function problemOf(trouble: Trouble, file: string, source?: SourceText): Problem {
  const { id, severity, message, mend, place } = trouble;
  if (!place || !source) return { id, severity, file, message, mend };
  return { id, severity, file, place, message, mend, excerpt: source.line(place.line) };
}

const longest = 40;

/** A value out of a file as a message shows it: in code marks, on one line, cut where long. */
export function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (value instanceof PlainScalar) return shown(value.source);
  if (typeof value === 'object' && value !== null) return 'a group of keys';
  if (value === null || value === undefined) return 'nothing';
  const plain = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
  const text = [...(plain ? String(value) : typeof value).replaceAll(/\s+/g, ' ').trim()];
  return text.length > longest ? `\`${text.slice(0, longest).join('')}…\`` : `\`${text.join('')}\``;
}

/** Words in a row: `a`, `b` or `c`. */
export function wordsInRow(words: readonly string[]): string {
  const marked = words.map((word) => `\`${word}\``);
  return marked.length < 2 ? marked.join('') : `${marked.slice(0, -1).join(', ')} or ${marked.at(-1)}`;
}
