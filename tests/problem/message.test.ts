import { expect, test } from 'vitest';
import { inRow, messageOf } from '../../src/problem/message.js';
import { messageWords } from '../../src/reference/words.js';
import { catalogue } from '../casefile/catalogue.js';

test('words in a row', () => {
  expect(inRow('or', [])).toBe('');
  expect(inRow('or', ['open'])).toBe('open');
  expect(inRow('and', ['open', 'covered', 'healed'])).toBe('open, covered and healed');
});

test('an id without words is a slip of ours', () => {
  expect(() => messageOf('record/no-such-thing')).toThrow(/no words for/);
});

test('every problem with words is in the catalogue', () => {
  const ids = messageWords()
    .keys.filter((key) => key.startsWith('problem.'))
    .map((key) => key.split('.')[1]!);
  expect([...new Set(ids)].filter((id) => !catalogue().has(id))).toEqual([]);
});

test('every way of a problem has a message and a fix, of its own or of its id', () => {
  const { keys, has } = messageWords();
  const ways = keys.flatMap((key) => /^problem\.([^.]+)(?:\.(?!message|fix)([^.]+))?\./.exec(key)?.[0] ?? []);
  const isSaid = (key: string): boolean => ['', '.one', '.other'].some((form) => has(key + form));
  const lacking = [...new Set(ways)].flatMap((way) => {
    const id = way.split('.').slice(0, 2).join('.');
    const ofIdAlone = way === `${id}.` && ways.some((other) => other.startsWith(way) && other !== way);
    return ['message', 'fix']
      .filter((part) => !ofIdAlone && !isSaid(way + part) && !isSaid(`${id}.${part}`))
      .map((part) => way + part);
  });
  expect(lacking).toEqual([]);
  expect(ways.length).toBeGreaterThan(200);
});
