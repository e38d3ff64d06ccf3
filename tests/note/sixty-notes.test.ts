import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readNote } from '../../src/note/read-note.js';
import { noteContext } from './two-farms.js';

interface Expected {
  readonly name: string;
  readonly note: string;
  /** What is drafted of each, looked through by hand; where something is asked, what is certain without it. */
  readonly visits: readonly { readonly animal: string; readonly visit: Record<string, unknown> }[];
  /** Ids of the questions, in the order of the note. */
  readonly asks: readonly string[];
  /** What is not understood and kept in a visit's note, in the order of the note. */
  readonly kept: readonly string[];
  /** What is before the first animal and is not understood. */
  readonly outside: readonly string[];
}

const notes = JSON.parse(
  readFileSync(new URL('./sixty-notes.json', import.meta.url), 'utf8'),
) as readonly Expected[];
const context = noteContext('2026-06-16');

test('there are sixty notes and more, no two of one name', () => {
  expect(notes.length).toBeGreaterThanOrEqual(60);
  expect(new Set(notes.map(({ name }) => name)).size).toBe(notes.length);
});

test.each(notes)('$name', ({ note, visits, asks, kept, outside }) => {
  const { animals, questions, heading } = readNote(note, context);
  const drafts = animals.flatMap(({ farm, animal, draft }) =>
    draft ? [{ animal: `${farm}/${animal}`, visit: draft }] : [],
  );
  const asked = [...questions, ...animals.flatMap((one) => one.questions)].map(({ id }) => id);
  expect({ asked, drafts }).toEqual({ asked: asks, drafts: visits });
  const notUnderstood = animals.flatMap(({ pieces }) =>
    pieces.filter(({ as }) => as === undefined).map(({ text }) => text),
  );
  expect(notUnderstood).toEqual(kept);
  expect(heading.filter(({ as }) => as === undefined).map(({ text }) => text)).toEqual(outside);
});
