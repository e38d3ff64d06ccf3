import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { NoteReading, NoteStretch } from '../../src/note/note-reading.js';
import { unwrapMail } from '../../src/note/mail-lines.js';
import { noteWords } from '../../src/note/note-words.js';
import { readNote } from '../../src/note/read-note.js';
import { tokensOf } from '../../src/note/token.js';
import { noteContext } from './two-farms.js';

const context = noteContext('2026-06-16');
const { phrases, inside } = noteWords;
const said = [...Object.values(phrases), ...Object.values(inside)].flatMap((meanings) =>
  Object.values(meanings).flat(),
);
const piece = fc.oneof(
  fc.constantFrom(...said),
  fc.constantFrom('2117', '2133', '2086', 'Quernholt', '15 June', '21', '18 1/2', 'a:', 'lesion b', 'm1', 'M2', 'a', 'b', 'twenty', 'four weeks', 'no', 'maybe', '?', '"quoted"', '“', '3/4', 'Orla Venn', 'grumpy', '🐄', 'no', 'not'),
  fc.constantFrom('.', ',', '\n', ':', '-', '\n\n', ';', '/'),
  fc.string({ maxLength: 6 }),
); // prettier-ignore
const note = fc
  .array(piece, { maxLength: 30 })
  .map((pieces) => `Quernholt 15 June\n2117 ${pieces.join(' ')}`);

function stretches(reading: NoteReading): NoteStretch[] {
  return [
    ...reading.heading,
    ...reading.questions,
    ...reading.animals.flatMap(({ pieces, questions }) => [...pieces, ...questions]),
  ];
}

test('whatever is written, nothing is thrown and no word is lost: each is understood, asked about or kept', () => {
  const passed = new Set([
    ...noteWords.fillers,
    ...said.filter((word) => ['by', 'at', 'of', 'with', 'note'].includes(word)),
  ]);
  fc.assert(
    fc.property(note, (text) => {
      const reading = readNote(text, context);
      const covered = stretches(reading);
      const lost = tokensOf(unwrapMail(text).text).filter(
        (token) =>
          (token.kind === 'word' ||
            token.kind === 'number' ||
            token.kind === 'quoted' ||
            token.kind === 'fraction') &&
          !passed.has(token.bare) &&
          !covered.some(({ from, to }) => from <= token.from && token.to <= to),
      );
      expect(
        lost.map((token) => token.text),
        text,
      ).toEqual([]);
      for (const { draft, questions } of reading.animals) if (draft) expect(questions).toEqual([]);
    }),
    { numRuns: 300 },
  );
});
