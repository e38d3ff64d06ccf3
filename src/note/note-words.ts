import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

const words = z.array(z.string().min(1));
const meanings = z.record(z.string(), z.record(z.string(), words));

/**
 * The words of notes from the yard: each meaning with all it may be called.
 *
 * Source:  shared/note-words.json
 * Checked: tests/note/note-words.test.ts
 */
export const noteWords = readShared(
  'note-words.json',
  z.strictObject({
    about: z.string(),
    /** Looked for anywhere in an animal's lines: kind of statement → meaning → words. */
    phrases: meanings,
    /** Looked for only where a statement asks for them. */
    inside: meanings,
    fillers: words,
    'inner-fillers': words,
    negations: words,
    doubts: words,
    'measure-fillers': words,
    times: words,
    ordinals: z.record(z.string(), words),
    numbers: z.record(z.string(), words),
    mail: z.strictObject({ headers: words, 'sent-from': words }),
  }),
);

/** A list of words turned round: word → the number it stands for. */
export function numbersOf(table: Readonly<Record<string, readonly string[]>>): ReadonlyMap<string, number> {
  return new Map(Object.entries(table).flatMap(([value, said]) => said.map((word) => [word, Number(value)])));
}
