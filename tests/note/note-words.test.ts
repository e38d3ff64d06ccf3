import { expect, test } from 'vitest';
import { noteWords } from '../../src/note/note-words.js';
import { phraseAt } from '../../src/note/phrase.js';
import { tokensOf } from '../../src/note/token.js';
import * as words from '../../src/record/words.js';

const { phrases, inside } = noteWords;

test('every word of the closed lists that a visit uses can be said, and no other meaning stands in the lists', () => {
  const closed: readonly (readonly [readonly string[], Readonly<Record<string, unknown>> | undefined])[] = [
    [words.claws, { ...phrases['claw'], other: undefined }],
    [words.sites, phrases['site']],
    [words.lesionStates, phrases['state']],
    [words.topFoundWords, phrases['top-found']],
    [words.tools, phrases['tool']],
    [words.signs, phrases['sign']],
    [words.animalSigns, phrases['animal-sign']],
    [words.visitKinds, phrases['kind']],
    [words.blockMaterials, phrases['material']],
    [words.painReliefWords, phrases['pain-relief']],
    [words.fixtureEvents, { ...phrases['block'], 'on?': undefined }],
    [words.fixtureEvents, { ...phrases['wrap'], 'on?': undefined }],
    [words.farmTasks, inside['task']],
    [words.carryingClawWords, inside['carrying-claw']],
    [words.productClasses, inside['class']],
  ];
  for (const [list, said] of closed)
    expect(Object.entries(said ?? {}).flatMap(([key, value]) => (value === undefined ? [] : key)).sort()).toEqual([...list].sort()); // prettier-ignore
  const codes = Object.keys(phrases['lesion'] ?? {}).flatMap((value) => value.split(' '));
  expect(codes.filter((code) => !(words.lesionCodes as readonly string[]).includes(code))).toEqual([]);
  for (const code of words.lesionCodes) expect(phraseAt(tokensOf(code), 0)?.kind, code).toBe('lesion');
});

test('a word anywhere in a note means one thing only', () => {
  const seen = new Map<string, string>();
  const twice: string[] = [];
  for (const [kind, meanings] of Object.entries(phrases)) {
    // What introduces a letter is also a kind of its own: `gap a`, and `gap` alone.
    if (kind === 'called') continue;
    for (const [value, said] of Object.entries(meanings))
      for (const word of said) {
        if (seen.has(word)) twice.push(`${word}: ${seen.get(word)} and ${kind} ${value}`);
        seen.set(word, `${kind} ${value}`);
      }
  }
  expect(twice).toEqual([]);
});

test('words are written as they are looked up: small letters, one space, no signs', () => {
  const all = [...Object.values(phrases), ...Object.values(inside)].flatMap((meanings) =>
    Object.values(meanings).flat(),
  );
  expect(all.filter((word) => !/^[a-z]+( [a-z]+)*$/.test(word))).toEqual([]);
});

test('the longest is taken, with small words passed over inside', () => {
  expect(phraseAt(tokensOf('took the block off'), 0)).toEqual({ kind: 'block', value: 'removed', next: 4 });
  expect(phraseAt(tokensOf('loose horn off'), 0)).toMatchObject({ kind: 'cut-back' });
  expect(phraseAt(tokensOf('loose horn'), 0)).toMatchObject({ kind: 'sign' });
  expect(phraseAt(tokensOf('L/H'), 0)).toMatchObject({ kind: 'foot', value: 'LH' });
  expect(phraseAt(tokensOf('20 cc'), 1)).toBeUndefined();
  expect(phraseAt(tokensOf('CC'), 0)).toMatchObject({ value: 'CC' });
});
