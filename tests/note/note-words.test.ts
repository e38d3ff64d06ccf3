import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import {
  flagSaid,
  isFiller,
  noteWords,
  phraseAt,
  saidByWord,
  slipsBetween,
  spelled,
} from '../../src/note/note-words.js';
import { tokensOf } from '../../src/note/token.js';
import { keyAt, placesOf } from '../../src/record/key.js';
import { lesion, mark } from '../../src/record/lesion.js';
import {
  blockEvent,
  footFinding,
  found,
  photo,
  productUse,
  visit,
  wrapEvent,
} from '../../src/record/visit.js';
import * as words from '../../src/record/words.js';

const { phrases } = noteWords;
const kinds = (text: string): Record<string, string> =>
  Object.fromEntries(phraseAt(tokensOf(text), 0)?.is ?? []);

test('every word of the closed lists that a visit uses can be said, and no other meaning is in the lists', () => {
  const closed: [readonly string[], Readonly<Record<string, unknown>> | undefined, string[]?][] = [
    [words.claws, phrases['claw'], ['other', 'same']],
    [words.sites, phrases['site']],
    [words.lesionStates, phrases['state'], ['closed']],
    [words.topFoundWords, phrases['top-found']],
    [words.tools, phrases['tool']],
    [words.signs, phrases['sign']],
    [words.animalSigns, phrases['animal-sign']],
    [words.visitKinds.filter((kind) => kind !== 'missed'), phrases['kind']],
    [words.blockMaterials, phrases['material']],
    [words.fixtureEvents, phrases['event'], ['new']],
    [words.farmTasks.filter((task) => task !== 'wrap off'), phrases['task']],
    [words.carryingClawWords, phrases['claw-state']],
    [words.productClasses, phrases['product-class']],
  ]; // prettier-ignore
  for (const [list, said, beside = []] of closed)
    expect(Object.keys(said ?? {}).sort()).toEqual([...list, ...beside].sort());
  const codes = Object.keys(phrases['lesion'] ?? {}).flatMap((value) => value.split(' '));
  expect(codes.filter((code) => !(words.lesionCodes as readonly string[]).includes(code))).toEqual([]);
  for (const code of words.lesionCodes) expect(kinds(code), code).toHaveProperty('lesion');
});

test('every key of a visit, of what is in it and of a lesion says by which words a note has it, and they are there', () => {
  const groups = [visit, found, footFinding, blockEvent, wrapEvent, productUse, photo, lesion, mark];
  for (const schema of groups)
    for (const [key, { noted }] of Object.entries(placesOf(schema))) {
      const [kind = ''] = noted?.split(' of ') ?? [];
      if (kind !== 'none') expect(Object.keys(phrases), key).toContain(kind);
    }
});

test('a word alone says what its key may hold', () => {
  for (const schema of [visit, found])
    for (const { key, kind } of saidByWord(schema))
      for (const meaning of Object.keys(phrases[kind]!))
        expect(keyAt(schema, key)!.holds, key).toSatisfy(
          (holds: z.ZodType) => holds.safeParse(flagSaid(meaning)).success,
        );
  expect(saidByWord(found).map(({ key }) => key)).toContain('infected');
});

test('each list of small words is asked for by the reader, and each it asks for is there', () => {
  const folder = new URL('../../src/note/', import.meta.url);
  const asked = readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) => [
      ...readFileSync(new URL(name, folder), 'utf8').matchAll(/(?:isOne\(|skip\([^,()]*,)\s*'([^']+)'/g),
    ])
    .map((match) => match[1]!);
  expect([...new Set(asked)].toSorted()).toEqual(Object.keys(noteWords.small).toSorted());
});

test('words are written as they are looked up: small letters, one space, no signs', () => {
  const all = Object.values(phrases).flatMap((meanings) => Object.values(meanings).flat());
  expect(all.filter((word) => !/^[a-z0-9]+( [a-z0-9]+)*$/.test(word))).toEqual([]);
});

describe('phrases', () => {
  test('the longest is taken, with small words passed over inside, and every kind it may be of', () => {
    expect(kinds('loose horn off')).toHaveProperty('cut-back');
    expect(kinds('loose horn')).toMatchObject({ sign: 'loose horn' });
    expect(kinds('L/H')).toMatchObject({ foot: 'LH' });
    expect(kinds('m/s 1')).toHaveProperty('gait');
    expect(kinds('n.p. - dry')).toHaveProperty('missed');
    expect(kinds('growth between the claws')).toMatchObject({ lesion: 'IH' });
    expect(kinds('back')).toMatchObject({ end: 'hind', recheck: 'recheck' });
  });

  test('codes that are words or units too are taken in capitals only', () => {
    expect(kinds('cc')).toEqual({});
    expect(kinds('CC')).toMatchObject({ lesion: 'CC' });
  });
});

describe('misspelled words', () => {
  test.each([
    ['blcok', 'block'], ['rihgt', 'right'], ['mobilty', 'mobility'], ['ulcr', 'ulcer'], ['ruller', 'ruler'],
    ['outsdie', 'outside'], ['rulr', 'ruler'], ['dermatitus', 'dermatitis'],
  ])('%s is %s', (wrong, right) => {
    expect(spelled(wrong)).toBe(right);
  }); // prettier-ignore

  test.each(noteWords['well-spelled'])('%s is no slip', (word) => {
    expect(spelled(word)).toBe(word);
  });

  test('slips are letters left out, put in, changed or exchanged', () => {
    expect([slipsBetween('block', 'blcok', 2), slipsBetween('heel', 'heal', 2), slipsBetween('wrap', 'wrapp', 2)]).toEqual([1, 1, 1]);
    expect(slipsBetween('mobility', 'parlour', 2)).toBe(3);
  }); // prettier-ignore
});

test('small words say nothing by themselves', () => {
  expect(['the', 'was', 'her'].every(isFiller)).toBe(true);
  expect(['block', 'not', 'pus'].some(isFiller)).toBe(false);
});
