import type { Place } from '../problem/problem.js';

/** A file's text and the way from an offset in it to line and column. */
export interface SourceText {
  readonly text: string;
  /** Counted from 1, without line ends; empty past the end. */
  readonly line: (number: number) => string;
  /** Line and column of a stretch; one that runs over several lines ends with the first. */
  readonly placeAt: (start: number, end: number) => Place;
  /** Offset of the first character of a line. */
  readonly startOf: (line: number) => number;
}

/** Line starts are worked out when the first place is asked for: a file without trouble never needs them. */
export function sourceText(text: string): SourceText {
  let known: number[] | undefined;
  const starts = (): number[] => (known ??= lineStarts(text));
  const startOf = (line: number): number => starts()[line - 1] ?? text.length;
  const line = (number: number): string =>
    text.slice(startOf(number), startOf(number + 1)).replace(/\r?\n$/, '');
  return {
    text,
    line,
    startOf,
    placeAt: (start, end) => {
      const number = lineOf(starts(), start);
      const from = startOf(number);
      const whole = line(number);
      const column = characters(whole.slice(0, start - from)) + 1;
      const stop = Math.max(end, start + 1) - from;
      return { line: number, column, endColumn: Math.max(column + 1, characters(whole.slice(0, stop)) + 1) };
    },
  };
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
}

/** The number of the line of an offset, by halving. */
function lineOf(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((starts[middle] ?? Infinity) <= offset) low = middle;
    else high = middle - 1;
  }
  return low + 1;
}

/** Columns count characters, not the halves some characters are stored in. */
function characters(text: string): number {
  let count = 0;
  for (const _ of text) count += 1;
  return count;
}

/** What is at a path. A link is named as such; whatever it leads to is asked for by `realPath`. */
export type EntryKind = 'file' | 'folder' | 'link' | 'other';

export interface FolderItem {
  readonly name: string;
  readonly kind: EntryKind;
}

/**
 * The files of the trimmer, as far as reading needs them: small, synchronous, no writing.
 *
 * Paths are as the user's system takes them, joined with `/`. Everything may throw where the system refuses;
 * the reader turns that into a problem of that one file.
 */
export interface CaseFiles {
  /**
   * What is there with links followed, its size, and where the system tells it when it was changed last, ms since
   * 1970, and a mark that is another one once it was written or replaced; undefined where nothing is there.
   */
  readonly look: (path: string) =>
    | {
        readonly kind: EntryKind;
        readonly bytes: number;
        readonly changedAt?: number;
        readonly mark?: string;
      }
    | undefined;
  /** The entries of a folder, sorted by name in code-unit order. */
  readonly list: (folder: string) => readonly FolderItem[];
  readonly read: (path: string) => Uint8Array;
  /** The first bytes of a file, as many as there are up to `bytes`. */
  readonly readStart: (path: string, bytes: number) => Uint8Array;
  /** The path with every link followed, joined with `/`; undefined where there is nothing or the links go in a circle. */
  readonly realPath: (path: string) => string | undefined;
}
