import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { CaseFiles } from '../../casefile/source-text.js';
import { calendarDay } from '../../record/calendar-day.js';
import { slug } from '../../record/measures.js';
import { linesOf } from './inbox-entry.js';
import { openCasesFolder } from '../../casefile/find-farms.js';
import type { Keeping, Worked } from '../change.js';

/**
 * A note that waits for answers, one line of JSON in `.growdown/notes.jsonl` of the case folder, as far as it is answered;
 * a later line of the same id takes its place, and one without a text says that nothing of it waits any more.
 */
const waitingNote = z.strictObject({
  id: z.string(),
  on: calendarDay,
  farm: slug.optional(),
  /** As it was taken, so that taking it again is not another note. */
  source: z.string().optional(),
  text: z.string().optional(),
});
export type WaitingNote = z.infer<typeof waitingNote>;

export const notesIn = (cases: string): string => `${cases}/.growdown/notes.jsonl`;

/**
 * A change made from a note that waits: where it is taken back, the note waits again, as it was answered.
 *
 * Checked: tests/cli/take.test.ts
 */
export function waitsAgain(
  worked: Worked,
  { files, cases }: Pick<Keeping, 'files' | 'cases'>,
  note: { readonly farm?: string; readonly source: string; readonly text: string },
): Worked {
  const id = idOfNote(note.source);
  if (worked.outcome !== 'change' || !waitingNotes(files, cases).some((one) => one.id === id)) return worked;
  const opened = openCasesFolder(files, cases);
  const folder = opened.outcome === 'open' ? opened.folder : cases;
  const line = { path: notesIn(folder), undone: { id, ...note } };
  return { ...worked, change: { ...worked.change, lines: [line] } };
}

/** @example idOfNote('2086 mobility 1').length // → 12 */
export function idOfNote(source: string): string {
  return createHash('sha256').update(source).digest('hex').slice(0, 12);
}

/**
 * Notes that wait, the oldest first.
 *
 * Checked: tests/cli/take.test.ts
 */
export function waitingNotes(files: CaseFiles, cases: string): WaitingNote[] {
  const { lines } = linesOf(files, notesIn(cases), waitingNote);
  return [...new Map(lines.map((one) => [one.id, one])).values()].filter(({ text }) => text !== undefined);
}
