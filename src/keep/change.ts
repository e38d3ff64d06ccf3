import type { CaseFiles } from '../casefile/source-text.js';
import type { Problem } from '../problem/problem.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { terminal } from '../problem/message.js';
import type { Values } from '../reference/words.js';

/** What a change is worked out from: the case files as they lie, and the day. */
export interface Keeping {
  readonly files: CaseFiles;
  /** The cases folder as the user typed it. */
  readonly cases: string;
  readonly today: CalendarDay;
  /** What looks like a slip is right as it stands: somebody has been asked. */
  readonly evenSo?: true;
}

/** One file before and after; `before` undefined: it is new, `after` undefined: it is taken away. */
export interface FileChange {
  /** As the user would type it, with `/`. */
  readonly file: string;
  /** Where it lies, as `CaseFiles` takes it. */
  readonly path: string;
  readonly before: Uint8Array | undefined;
  readonly after: Uint8Array | undefined;
}

/** Where a folder lies, and what the user calls it. */
export interface Folder {
  readonly path: string;
  readonly shown: string;
}

/** What becomes of a file, by its name in a folder. */
export function fileChange(
  { path, shown }: Folder,
  name: string,
  before: Uint8Array | undefined,
  after: Uint8Array | undefined,
): FileChange {
  return { file: `${shown}/${name}`, path: `${path}/${name}`, before, after };
}

/** A change worked out and checked, not yet written. */
export interface Change {
  /** In a few words, such as `visit of 2026-03-03`. */
  readonly what: string;
  /** Slugs of the farms whose folders it writes in, the one asked for first; empty for `business.md`. */
  readonly farms: readonly string[];
  /** In the order they are to be written. */
  readonly files: readonly FileChange[];
  /** Warnings and notes the records did not have before. */
  readonly remarks: readonly Problem[];
  /** Sealed records it takes out are withdrawn with these words. */
  readonly withdraws?: { readonly by?: string; readonly why: string };
  /** It takes an earlier change back, the one of this memory (SHA-256), and cannot itself be taken back. */
  readonly undoes?: string;
  /** Lines for files that only grow, which are no record: what became of a sending. */
  readonly lines?: readonly GrowingLine[];
}

/** A line put behind a file with the change, and the one put there should the change be taken back; each an object, its `on` the day. */
export interface GrowingLine {
  readonly path: string;
  readonly now?: Readonly<Record<string, unknown>>;
  readonly undone?: Readonly<Record<string, unknown>>;
}

/**
 * What asking for a change comes to. Nothing is written by working it out.
 *
 * `refused`: the records would have an error they have not now, or the file cannot be read; each problem has its place
 * in the file as it would be. Where all of them only look like slips it is `asked`: written all the same with
 * `evenSo`. `cannot`: what was asked does not fit what is there; the message is whole, with the way out.
 */
export type Worked =
  | { readonly outcome: 'change'; readonly change: Change }
  | { readonly outcome: 'refused'; readonly problems: readonly Problem[]; readonly asked?: true }
  | { readonly outcome: 'cannot'; readonly message: string };

/** Why there is no change. */
export type Not = Exclude<Worked, { outcome: 'change' }>;
export type Cannot = Extract<Worked, { outcome: 'cannot' }>;

/** By the key of its sentence under `terminal`. */
export function cannot(key: `${'exchange' | 'keep'}.${string}`, values?: Values): Cannot {
  return { outcome: 'cannot', message: terminal(key, values) };
}
