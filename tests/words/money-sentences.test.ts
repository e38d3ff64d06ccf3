import { expect, test } from 'vitest';
import type { Costs } from '../../src/money/costs.js';
import type { ToFinish } from '../../src/money/to-finish.js';
import { notInSumItems, toFinishSentence } from '../../src/words/compose-money.js';
import { wordsOf } from '../../src/reference/words.js';
import { cow } from '../herd/invented-herd.js';

const words = wordsOf('en-GB');
const animal = cow('1', [], {
  lesions: {
    a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
    c: { code: 'DD', foot: 'RH' },
  },
});
const said = (finish: ToFinish) => toFinishSentence(words, animal, finish, 'GBP');
const pace = { everyDays: 42, from: 'planned', visits: 4, blocks: 1 } as const;

test('a range with its pace, its basis and its sum', () => {
  expect(
    said({
      outcome: 'range',
      // 69 / 30.4375 = 2.27, rounded down; 145 / 30.4375 = 4.76, rounded up
      days: { low: 69, high: 145 },
      pace,
      visits: { low: 2, high: 4 },
      blocks: { low: 1, high: 1 },
      sum: { low: 10450n, high: 19450n },
      ifSoundHornFollows: false,
      without: [],
    }),
  ).toBe(
    'To finish at the present pace, a visit every 42 days (as the next is planned), with blocks as so far (1 block in 4 visits): 2 to 4 more visits, 1 block and 2.2 to 4.8 months from today. It is the 80 % range of her dates, an estimate from averages and her readings; visits and blocks are rounded up. Visits and blocks alone: 104.50 to 194.50 GBP.',
  );
});

test('without a pace no visits; what the range hangs on and what it leaves out are said', () => {
  expect(
    said({ outcome: 'range', days: { low: 0, high: 1 }, ifSoundHornFollows: true, without: ['c'] }),
  ).toBe(
    'To finish: 0 to 0.1 months from today, the 80 % range of her dates, an estimate from averages and her readings. How many visits is not given: no next visit is planned for her, and she was lifted on one day only. It holds only if sound horn follows at the coronet. It leaves out lesions that never get a date: digital dermatitis (DD), right hind.',
  );
});

test.each([
  [
    'no-date',
    ['a'],
    'What it would take to finish is not given: there is no date for white line disease (WL), left hind, outer claw.',
  ],
  [
    'past',
    [],
    'What it would take to finish is not given: the range of her dates has passed. Measure again.',
  ],
  [
    'open-end',
    [],
    'What it would take to finish is not given: the range of her dates reaches beyond five years.',
  ],
  [
    'nothing-dated',
    ['c'],
    'What it would take to finish is not given: her open lesions never get a date (digital dermatitis (DD), right hind).',
  ],
  ['nothing-dated', [], 'What it would take to finish is not given: she has no open lesion.'],
] as const)('not given, and why: %s %j', (why, lesions, sentence) => {
  expect(said({ outcome: 'none', why, lesions })).toBe(sentence);
});

test('what is not in a sum, each with its reason', () => {
  const notInSum: Costs['notInSum'] = [
    { what: 'visit', count: 5, why: 'no-price' },
    { what: 'wrap', count: 1, why: 'others' },
    { what: 'product', count: 2, why: 'no-cost' },
    { what: 'milk', count: 6, why: 'no-litres' },
    { what: 'milk', count: 1, why: 'not-recorded' },
  ];
  const costs: Costs = { currency: 'GBP', lines: [], total: 0n, notInSum };
  expect(notInSumItems(words, costs)).toBe(
    '5 visits (no price is given); 1 wrap done by others; 2 products without a cost recorded; 6 days of milk (the farm’s litres per cow are not recorded); the milk of 1 product whose withdrawal is not recorded or not known',
  );
  expect(notInSumItems(words, { ...costs, notInSum: [] })).toBeUndefined();
});
