import { z } from 'zod';
import { calendarDay } from '../../record/calendar-day.js';
import { longText, slug, text as oneLine } from '../../record/measures.js';
import { photo } from '../../record/visit.js';
import type { CaseFiles } from '../../casefile/source-text.js';
import { bytesOf, parsedJson } from '../kept-file.js';

/** The id of an entry: a random one out of the form, and a number behind it where the same form was sent again with changes. */
const entryId = z.string().regex(/^[0-9a-f-]{36}(\.\d{1,3})?$/);

/** The name of a picture in the inbox: the form's id and the beginning of the picture's hash. */
export const heldPicture = z.string().regex(/^[0-9a-f-]{36}-[0-9a-f]{16}$/);

const record = z.record(z.string(), z.unknown());

/**
 * A visit sent from the yard, one line of JSON in `.growdown/inbox/visits.jsonl` of its farm. The visit is as it was
 * answered; whether the record takes it is asked when it is taken.
 */
export const inboxEntry = z.strictObject({
  format: z.literal(1),
  id: entryId,
  /** The entry this one is in the place of: the same form sent again with changes. */
  'instead-of': entryId.optional(),
  /** The day it was sent. */
  on: calendarDay,
  animal: slug,
  visit: record,
  /** Of a cow without a case, which the visit opens: her number, and her tag where it was read. */
  opens: z.strictObject({ animal: oneLine, tag: oneLine.optional() }).optional(),
  declares: record.optional(),
  /** Whoever sent it was asked about what looks like a slip, and it is right as it stands. */
  'even-so': z.literal(true).optional(),
  pictures: z.array(
    z.strictObject({
      held: heldPicture,
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
      shows: photo.omit({ file: true }),
    }),
  ),
});
export type InboxEntry = z.infer<typeof inboxEntry>;

/** What became of an entry, one line of JSON in `taken.jsonl` beside it; the last one counts. `taken back`: it was undone, and waits again. */
const inboxMark = z.strictObject({
  id: entryId,
  on: calendarDay,
  became: z.enum(['added', 'already there', 'set aside', 'taken back']),
  why: longText.optional(),
});
export type InboxMark = z.infer<typeof inboxMark>;

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

export const entriesIn = (farm: string): string => `${farm}/.growdown/inbox/visits.jsonl`;
export const marksIn = (farm: string): string => `${farm}/.growdown/inbox/taken.jsonl`;
export const pictureIn = (farm: string, held: string): string => `${farm}/.growdown/inbox/pictures/${held}`;

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
  const last = new Map(linesOf(files, marksIn(farmFolder), inboxMark).lines.map((mark) => [mark.id, mark]));
  const marks = new Map([...last].filter(([, { became }]) => became !== 'taken back'));
  const isLast = ({ id, 'instead-of': form = id }: InboxEntry): boolean =>
    sentBefore({ entries }, form).at(-1)?.id === id;
  const open = entries.filter((entry) => !marks.has(entry.id) && isLast(entry));
  return { entries, marks, open, cutShort: kept.cutShort };
}

/** All sendings of one form, first to last. */
export function sentBefore({ entries }: Pick<Inbox, 'entries'>, form: string): InboxEntry[] {
  return entries.filter((entry) => entry.id === form || entry['instead-of'] === form);
}

/** Lines of JSON of one shape; one that is not whole is counted and passed over. */
export function linesOf<S extends z.ZodType>(
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
