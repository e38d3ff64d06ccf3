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

test('every problem with words stands in the catalogue', () => {
  const ids = messageWords()
    .keys.filter((key) => key.startsWith('problem.'))
    .map((key) => key.split('.')[1]!);
  expect([...new Set(ids)].filter((id) => !catalogue().has(id))).toEqual([]);
});
