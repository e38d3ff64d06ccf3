import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { itemsOf, saysNothing } from '../../src/note/item.js';
import { unwrapMail } from '../../src/note/mail-lines.js';
import type { NoteReading } from '../../src/note/note-reading.js';
import { noteWords } from '../../src/note/note-words.js';
import { readNote } from '../../src/note/read-note.js';
import { noteContext } from './two-farms.js';

const context = noteContext('2026-06-16');
const said = Object.values(noteWords.phrases).flatMap((meanings) => Object.values(meanings).flat());
const piece = fc.oneof(
  fc.constantFrom(...said),
  fc.constantFrom('2117', '2133', '2086', 'Quernholt', '15 June', '21', '18 1/2', '24/44', '9x7', 'a:', 'lesion b', 'm1', 'M2', 'a', 'b', 'twenty', 'four weeks', 'no', 'maybe', '?', '"quoted"', '“', '3/4', 'Orla Venn', 'grumpy', '🐄', 'not'),
  fc.constantFrom('.', ',', '\n', ':', '-', '\n\n', ';', '/', '(', ')'),
  fc.string({ maxLength: 6 }),
); // prettier-ignore
const note = fc
  .array(piece, { maxLength: 30 })
  .map((pieces) => `Quernholt 15 June\n2117 ${pieces.join(' ')}`);
const nobody = { numbers: new Set<string>(), names: [], people: [], farms: [] };

function stretches(reading: NoteReading): { readonly from: number; readonly to: number }[] {
  return [
    ...reading.heading,
    ...reading.animals.flatMap(({ pieces, questions }) => [...pieces, ...questions]),
  ];
}

describe('laws', () => {
  test('whatever is written, nothing is thrown and no word is lost: each is a fact, asked about, kept or passed over', () => {
    fc.assert(
      fc.property(note, (text) => {
        const reading = readNote(text, context);
        const covered = stretches(reading);
        const lost = itemsOf(unwrapMail(text).text, nobody).filter(
          (item) =>
            !saysNothing(item) &&
            // Words that turn or join what others say.
            !['negation', 'both', 'plan', 'hedge', 'correct', 'not-ours', 'cow', 'nearly', 'recent', 'takes-back', 'the-others'].some((kind) => item.is.has(kind)) &&
            !reading.animals.some(({ called }) => item.figures === called) &&
            !covered.some(({ from, to }) => from <= item.from && item.to <= to),
        );
        expect(lost.map((item) => item.text), text).toEqual([]);
      }),
      { numRuns: 300, examples: [['Quernholt 15 June\n2117 asked for something for the pain Orla Venn']] },
    );
  }); // prettier-ignore

  test('no fact without a word that says it: of words that are none of ours nothing is drafted but the words', () => {
    const strange = fc.constantFrom('the', 'parlour', 'weather', 'Tuesday', 'market', 'diesel', 'nephew', 'tractor', 'was', 'very', 'after', 'invoice'); // prettier-ignore
    fc.assert(
      fc.property(fc.array(strange, { minLength: 1, maxLength: 12 }), (words) => {
        const { animals } = readNote(`Quernholt 15 June\n2117 ${words.join(' ')}`, context);
        for (const { draft, questions } of animals) {
          if (draft === undefined) continue;
          expect(questions).toEqual([]);
          const { date: _, by: __, kind: ___, note: ____, ...facts } = draft;
          expect(facts).toEqual({});
        }
      }),
      { numRuns: 100 },
    );
  });

  test('the same note says the same however its lines end and whatever the case of its letters', () => {
    const one = 'Quernholt 15 June\n2117 LH outer white line top 21 wall 43 tape seen. block off, inner sound. mobility 1';
    const drafts = [one, one.toUpperCase(), one.replaceAll('\n', '\r\n')].map((text) => readNote(text, context).animals.map(({ draft }) => draft));
    expect(drafts[1]).toEqual(drafts[0]);
    expect(drafts[2]).toEqual(drafts[0]);
  }); // prettier-ignore
});

describe('speed', () => {
  const cow = '2117 LH lat WL 24/44 tape seen. Bk off, claw under sound. Mob 1. R/C 6/52\n';
  const long = (words: string): string => `Quernholt 15 June\n2117 ${words}`;
  const timed = (text: string): number => {
    const before = performance.now();
    readNote(text, context);
    return performance.now() - before;
  };

  test('twenty cows in under half a second', () => {
    timed(cow);
    expect(timed(`Quernholt 15 June\n${cow.repeat(20)}`)).toBeLessThan(500);
  });

  test.each([
    ['brackets', '('.repeat(20_000)],
    ['no stop anywhere', 'block off lh '.repeat(1000)],
    ['words nobody knows', 'qwerty zxcvb '.repeat(1000)],
    ['pairs', '24/44 '.repeat(1500)],
    ['small words', 'the and of '.repeat(1000)],
  ])('under a millisecond a word: %s', (_, words) => {
    expect(timed(long(words)) / Math.max(words.split(' ').length, words.length / 6)).toBeLessThan(1);
  });

  test('a span no calendar holds is reported', () => {
    const [only] = readNote(long('a: top 21. look again in 100000000 weeks'), context).animals;
    expect(only?.questions.map(({ id }) => id)).toEqual(['no-such-day']);
  });
});
