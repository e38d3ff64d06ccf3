import { expect, test } from 'vitest';
import { told, untold, wordsFrom } from '../../src/reference/words.js';

test("the form of a string is the language's own for the count, else `other`", () => {
  const strings = new Map([
    ['due.cow.one', '{count} krowa'],
    ['due.cow.few', '{count} krowy'],
    ['due.cow.many', '{count} krów'],
    ['due.cow.other', '{count} krowy.'],
    ['due.plain.other', '{count}'],
  ]);
  const polish = wordsFrom('pl', strings);
  expect([1, 3, 5, 22, 0.5].map((count) => polish.say('due.cow', { count }))).toEqual([
    '1 krowa',
    '3 krowy',
    '5 krów',
    '22 krowy',
    '0.5 krowy.',
  ]);
  expect(polish.say('due.plain', { count: 1 })).toBe('1');
  expect(wordsFrom('en-GB', strings).say('due.cow', { count: 0 })).toBe('0 krowy.');
});

test('an unknown key and an unfilled gap are slips of ours', () => {
  const words = wordsFrom('en-GB', new Map([['due.cow', 'cow {number}']]));
  expect(() => words.say('due.cow')).toThrow(/wants a value for \{number\}/);
  expect(() => words.say('due.goat')).toThrow(/no words for/);
});

test('what a record says is marked, and no sign in it ends its mark', () => {
  expect(told('Quernholt')).toBe('\u2068Quernholt\u2069');
  expect(told('a\u2069b\u2068c')).toBe('\u2068abc\u2069');
  expect(untold(`${told('sore')}, ${told('left')}`)).toBe('sore, left');
  expect([told(''), told(undefined)]).toEqual(['', undefined]);
});
