import { describe, expect, test } from 'vitest';
import { readNote } from '../../src/note/read-note.js';
import { noteContext } from './two-farms.js';

const context = noteContext('2026-06-16');
const read = (text: string) => readNote(`Quernholt 15 June\n${text}`, context).animals;

describe('by the end of her tag', () => {
  // 2086 has the tag UK 000123 402086.
  test('where it is said to be a tag’s', () => {
    const [animal] = read('the one whose tag ends in 402086: mobility 1');
    expect(animal).toMatchObject({ animal: '2086', questions: [], draft: { gait: 1 } });
  });

  test('asked about where a number only looks like it, with her first', () => {
    const [animal] = read('402086 mobility 1');
    expect(animal!.questions.map(({ id }) => id)).toEqual(['no-case']);
    expect(animal!.questions[0]!.choices[0]!.text).toBe('2086');
  });
});

test('what is said of the rest of her wall is not said of other cows', () => {
  const animals = read('2133 mobility 1.\n2117 LH top 21 of 43 ruler. The rest of the wall was sound.');
  expect(animals).toHaveLength(2);
  expect(JSON.stringify(animals[0]!.draft)).not.toContain('rest of');
});

test('what is wrong with her owns up to no mistake; the wrong way round does, and nothing is drafted', () => {
  expect(read('2117 mobility 1. nobody knows what is wrong with her')[0]).toMatchObject({ questions: [], draft: { gait: 1 } }); // prettier-ignore
  const [animal] = read('2117 LH block off. I had the blocks the wrong way round');
  expect(animal!.questions.map(({ id }) => id)).toContain('mistake');
  expect(animal!.draft).toBeUndefined();
});

test('a capital before “here” is nobody’s name', () => {
  expect(readNote('Wet here all day. Quernholt 15 June\n2117 mobility 1', context).animals[0]!.draft!.by).toBe('Orla Venn'); // prettier-ignore
});

describe('words for all cows at once', () => {
  const two = '2133 block off\n2117 block off\n';
  const gaits = (text: string) => read(text).map(({ draft }) => [draft?.gait, draft?.recheck]);

  test('a score, and a day to be seen again, of each but those named', () => {
    expect(gaits(`${two}all mob 1`)).toEqual([[1, undefined], [1, undefined]]); // prettier-ignore
    expect(gaits(`${two}all mob 1 bar 2117`)).toEqual([[1, undefined], [undefined, undefined]]); // prettier-ignore
    expect(gaits(`${two}14 July 2026 for everybody`)).toEqual([[undefined, '2026-07-14'], [undefined, '2026-07-14']]); // prettier-ignore
    expect(gaits(`${two}next all 14 July 2026`)).toEqual([[undefined, '2026-07-14'], [undefined, '2026-07-14']]); // prettier-ignore
    const disinfected = read(`${two}knives disinfected between all`);
    expect(disinfected.map(({ draft }) => draft?.['tools-disinfected'])).toEqual([true, true]);
  });

  test('“all” is hers where nothing of all cows follows', () => {
    expect(gaits('2133 mobility 1\n2117 too sore to take it all back, mobility 2')).toEqual([[1, undefined], [2, undefined]]); // prettier-ignore
  });
});

test('a ditto mark stands for the cell above it', () => {
  const [one, other] = read('2133   LH   block off   mob 2\n2117   "       "   "       "');
  expect(one!.draft).toMatchObject({ gait: 2 });
  expect(other!.draft).toMatchObject({ gait: 2 });
});

test('a name that signs the note did the work; a score is told over its scale', () => {
  expect(read('2117 Mob 2/3\n- Corbin')[0]!.draft).toMatchObject({ by: 'Corbin', gait: 2 });
});
