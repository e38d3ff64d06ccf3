import type { Place, Problem, Severity } from '../problem/problem.js';
import type { SourceText } from './source-text.js';

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
