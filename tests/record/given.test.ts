import { expect, test } from 'vitest';
import { given } from '../../src/record/given.js';

test('what has no value is no key at all; what is empty, zero or false is', () => {
  const all = given({ farm: undefined, note: '', score: 0, held: false, none: null });
  expect(Object.keys(all)).toEqual(['note', 'score', 'held', 'none']);
});
