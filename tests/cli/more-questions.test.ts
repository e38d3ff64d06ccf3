import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { wrapped } from '../../src/run/dialogue.js';
import { wordingOf } from '../../src/form/asking/ask-question.js';
import { moreQuestions, visitQuestions } from '../../src/keep/questions.js';
import { visit as visitSchema } from '../../src/record/visit.js';
import { wordsOf } from '../../src/reference/words.js';
import { fullAnimal } from '../book/full-practice.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';
import { typing } from './typing.js';

const sound = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };
const asked = ['visit', 'quernholt/2086', '--date', '2026-02-17', '--by', 'Orla Venn'];
const jpeg = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1);
/** Walk, state, top, how found, wall, tool, signs, block, when again; the note is still to come. */
const usual = ['1', 'o', '21', 's', '43', 'r', '', '', '4 weeks'];

test('everything a visit can hold is asked, at once or where more is asked for, in words', () => {
  const keys = [...visitQuestions(fullAnimal), ...moreQuestions()].map(({ path }) => path[0]!);
  // The day is said with --date; `amended` is written by a correction alone.
  const others = Object.keys(visitSchema.shape).filter((key) => !['date', 'amended'].includes(key));
  expect(others.filter((key) => !keys.includes(key))).toEqual([]);
  const words = wordsOf('en-GB');
  expect(moreQuestions().filter((question) => !words.has(wordingOf(words, question)))).toEqual([]);
});

test('+ at the last question asks for more: what was there gets more entries, a new lesion its own questions', async () => {
  const more = [
    'les',
    'digital',
    'rh',
    '',
    '',
    'M2',
    'smell',
    'marks',
    'lh',
    'in',
    'dorsal',
    '',
    '12',
    'cal',
    'pain',
    'given',
    'vet',
    'swollen again',
    'found',
    'a: ran-up, note "dry, above"',
    'tri',
    'lh, rh',
    'cut',
    'a',
    'feet',
    'RF: lifted no',
    'blo',
    'lh in fit wood',
    'blo',
    'RH inner fitted plastic',
    'pro',
    'blue spray, not a medicine, lesion b, milk-days 0',
    'ask',
    'straw pen, by 3 days',
    'ask',
    'block watch, by 2026-02-24',
    'ph',
    'my pictures/IMG 1.JPG, LH outer sole, after',
    'we',
    '655',
    'tools',
    'y',
    '',
  ];
  const { dialogue } = typing([...usual, '+', ...more, 'quiet']);
  const { folder, growdown } = folderWith({ ...sound, 'my pictures/IMG 1.JPG': jpeg }, { dialogue });
  const run = await growdown(...asked);
  expect(run.code, run.err).toBe(0);
  const text = readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8');
  expect(text).toContain('  b: { code: DD, foot: RH }\n');
  expect(text).toContain('marks:\n  m1: { foot: LH, claw: inner, line: dorsal }\n');
  expect(text.slice(text.indexOf('  - date: 2026-02-17'), text.lastIndexOf('---') + 4))
    .toBe(`  - date: 2026-02-17
    by: Orla Venn
    kind: recheck
    gait: 1
    weight: 655
    feet:
      RF: { lifted: false }
    found:
      a: { state: open, top: 21, top-found: seen, wall: 43, tool: ruler, ran-up: true, note: "dry, above" }
      b: { stage: M2, signs: [smell] }
      m1: { distance: 12, tool: calliper }
    trimmed: [LH, RH]
    cut-back: [a]
    blocks:
      - { foot: LH, claw: inner, event: fitted, material: wood }
      - { foot: RH, claw: inner, event: fitted, material: plastic }
    products:
      - { product: "blue spray", class: not a medicine, lesion: b, milk-days: 0 }
    pain-relief: given
    photos:
      - { file: "photos/2086-2026-02-17-lh-outer-sole.jpg", foot: LH, claw: outer, view: sole, when: after }
    vet: { asked: 2026-02-17, why: "swollen again" }
    ask-farm:
      - { what: straw pen, by: 2026-02-20 }
      - { what: block watch, by: 2026-02-24 }
    tools-disinfected: true
    recheck: 2026-03-17
    note: "quiet"
---
`);
  expect(readdirSync(join(folder, 'cases/quernholt/photos'))).toEqual(['2086-2026-02-17-lh-outer-sole.jpg']);
});

test.each([
  ['a picture that is not there', ['photos', 'gone.jpg, LH'], /there is no file gone\.jpg/],
  ['a lesion she has not', ['found', 'x: ran-up'], /`x` is not a lesion or mark of hers, expected one of a/],
  ['a lesion of a product', ['products', 'spray, lesion x'], /`x` is not a lesion/],
])('what only the case can tell is reported at once: %s', async (_, lines, said) => {
  const { dialogue } = typing([...usual, '+', ...lines]);
  const { growdown } = folderWith(sound, { dialogue });
  expect((await growdown(...asked)).err).toMatch(said);
});

test('where her file has become wrong in the meantime, the answers are shown as it would hold them', async () => {
  const { dialogue } = typing([...usual, '']);
  const made = folderWith(sound, {
    dialogue: {
      ...dialogue,
      choose: (...question) => {
        made.put('cases/quernholt/2086.md', 'no case file any more');
        return dialogue.choose(...question);
      },
    },
  });
  const run = await made.growdown(...asked);
  expect(run.code).not.toBe(0);
  expect(run.err).toMatch(/what was answered[^]*top: 21/);
});

test('long lines are broken between words and keep their indentation', () => {
  expect(wrapped('  one two three', 11)).toBe('  one two\n  three');
  expect(wrapped('Due\n  a long_word_that_is_too_long', 10)).toBe('Due\n  a\n  long_word_that_is_too_long');
  expect(wrapped('', 10)).toBe('');
});
