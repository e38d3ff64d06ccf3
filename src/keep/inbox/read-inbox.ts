import type { z } from 'zod';
import type { CaseFiles } from '../../casefile/case-files.js';
import { bytesOf } from '../kept-file.js';
import { type InboxEntry, type InboxMark, inboxEntry, inboxMark } from './inbox-entry.js';

/** A farm's inbox as it lies on the disk. */
export interface Inbox {
  /** In the order they were kept, each id once. */
  readonly entries: readonly InboxEntry[];
  /** What became of each that was taken or set aside. */
  readonly marks: ReadonlyMap<string, InboxMark>;
  /** Entries neither taken, set aside nor replaced by a later sending of the same form. */
  readonly open: readonly InboxEntry[];
  /** Lines that are cut short: left by a program ended while it wrote, and never acknowledged. */
  readonly cutShort: number;
}

export function inboxFolder(farmFolder: string): string {
  return `${farmFolder}/.growdown/inbox`;
}
export const entriesIn = (farmFolder: string): string => `${inboxFolder(farmFolder)}/visits.jsonl`;
export const marksIn = (farmFolder: string): string => `${inboxFolder(farmFolder)}/taken.jsonl`;
export const pictureIn = (farmFolder: string, held: string): string =>
  `${inboxFolder(farmFolder)}/pictures/${held}`;

/**
 * Reads a farm's inbox. A line that is not whole is counted and passed over: a line is synced before it is
 * acknowledged, so one that was acknowledged is whole.
 *
 * Checked: tests/cli/take-inbox.test.ts
 */
export function readInbox(files: CaseFiles, farmFolder: string): Inbox {
  const kept = linesOf(files, entriesIn(farmFolder), inboxEntry);
  const entries = [
    ...new Map(kept.lines.toReversed().map((entry) => [entry.id, entry])).values(),
  ].toReversed();
  const marks = new Map(linesOf(files, marksIn(farmFolder), inboxMark).lines.map((mark) => [mark.id, mark]));
  const replaced = new Set(chains(entries).flatMap((chain) => chain.slice(0, -1).map(({ id }) => id)));
  const open = entries.filter(({ id }) => !marks.has(id) && !replaced.has(id));
  return { entries, marks, open, cutShort: kept.cutShort };
}

/** All sendings of one form, first to last. */
export function sentBefore({ entries }: Pick<Inbox, 'entries'>, form: string): InboxEntry[] {
  return entries.filter((entry) => entry.id === form || entry['instead-of'] === form);
}

function chains(entries: readonly InboxEntry[]): InboxEntry[][] {
  const forms = new Set(entries.map((entry) => entry['instead-of'] ?? entry.id));
  return [...forms].map((form) => sentBefore({ entries }, form));
}

function linesOf<S extends z.ZodType>(
  files: CaseFiles,
  path: string,
  schema: S,
): { readonly lines: z.output<S>[]; readonly cutShort: number } {
  const text = new TextDecoder().decode(bytesOf(files, path) ?? new Uint8Array());
  const written = text.split('\n').filter((line) => line.trim() !== '');
  const lines = written.flatMap((line) => {
    const parsed = schema.safeParse(parsedJson(line));
    return parsed.success ? [parsed.data] : [];
  });
  return { lines, cutShort: written.length - lines.length };
}

function parsedJson(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}
