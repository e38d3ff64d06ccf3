import { expect, it } from 'vitest';
import { withheldInWords } from '../../src/words/compose-withheld.js';
import { wordsOf } from '../../src/reference/words.js';
import { plain } from './plain.js';

const say = (held: Parameters<typeof withheldInWords>[1], language: 'en-GB' | 'en-US' = 'en-GB') =>
  plain(withheldInWords(wordsOf(language), held, 'milk', '2026-06-16'));

it('both days, or neither', () => {
  const held = {
    outcome: 'withheld',
    lastWithheld: '2026-06-19',
    firstClear: '2026-06-20',
    product: 'x',
    day: '2026-06-14',
  } as const;
  expect(say(held)).toEqual({ text: 'to Fri 19 June; clear Sat 20 June', isHeld: true });
  expect(say(held, 'en-US').text).toBe('to Fri, June 19; clear Sat, June 20');
  expect(say({ outcome: 'nothing' })).toEqual({ text: 'no withdrawal on record', isHeld: false });
});

it('why nobody knows, the first reason whole and the others counted', () => {
  const one = { why: 'not-recorded', product: 'x', day: '2026-06-14' } as const;
  expect(say({ outcome: 'not-known', why: [one, { why: 'treated', day: '2026-06-15' }] })).toEqual({
    text: 'not known: treat as under withdrawal, ask the vet',
    note: 'x, last given 14 June 2026: no milk period. The withdrawal of one more treatment is not known.',
    isHeld: true,
  });
});
