import { describe, expect, test } from 'vitest';
import { fitsSeal, type Fit } from '../../src/ledger/fits-seal.js';
import { contentDifferences, type Content, type LedgerKind } from '../../src/ledger/ledger-entry.js';

const [one, two] = [
  { by: 'Orla Venn', why: 'wrong claw' },
  { by: 'Orla Venn', why: 'wrong tool' },
];
const was = { animal: '2086' };

describe('what a record is to what was sealed of it', () => {
  test.each<[string, LedgerKind, Content, Content, Fit]>([
    ['keys in another order', 'lesion', { code: 'SU', foot: 'LH' }, { foot: 'LH', code: 'SU' }, 'same'],
    ['a key more', 'lesion', { code: 'SU' }, { code: 'SU', claw: 'outer' }, 'grown'],
    ['a key less', 'lesion', { code: 'SU', claw: 'outer' }, { code: 'SU' }, 'differs'],
    ['a key more in a visit', 'visit', { gait: 1 }, { gait: 1, signs: [] }, 'differs'],
    ['a key more in a gait round', 'gait-round', { cows: 90 }, { cows: 90, lame: 9 }, 'differs'],
    [
      'a calving more at the end',
      'identity',
      { calvings: ['a', 'b'] },
      { calvings: ['a', 'b', 'c'] },
      'grown',
    ],
    ['a calving more between', 'identity', { calvings: ['a', 'c'] }, { calvings: ['a', 'b', 'c'] }, 'grown'],
    ['a calving changed', 'identity', { calvings: ['a', 'b'] }, { calvings: ['a', 'c'] }, 'differs'],
    ['calvings in another order', 'identity', { calvings: ['a', 'b'] }, { calvings: ['b', 'a'] }, 'differs'],
    ['calvings taken out', 'identity', { calvings: ['a'] }, {}, 'differs'],
    ['dried off once more', 'identity', { 'dried-off': ['a'] }, { 'dried-off': ['a', 'b'] }, 'grown'],
    ['a number more that she had', 'identity', { earlier: ['a'] }, { earlier: ['a', 'b'] }, 'grown'],
    ['another scale since', 'scales', { 'gait-scale': ['a'] }, { 'gait-scale': ['a', 'b'] }, 'grown'],
    ['any other list grown', 'footbath', { products: ['a'] }, { products: ['a', 'b'] }, 'differs'],
    ['another number, the old one kept', 'identity', was, { animal: '7', earlier: [was] }, 'grown'],
    [
      'another number, another one kept',
      'identity',
      was,
      { animal: '7', earlier: [{ animal: '8' }] },
      'differs',
    ],
    ['another number in silence', 'identity', was, { animal: '7' }, 'differs'],
    ['a lesion of another animal', 'lesion', was, { animal: '7', earlier: [was] }, 'differs'],
    [
      'a picture’s file renamed',
      'picture',
      { file: 'a.jpg', foot: 'LH' },
      { file: 'b.jpg', foot: 'LH' },
      'grown',
    ],
    [
      'a picture of another foot',
      'picture',
      { file: 'a.jpg', foot: 'LH' },
      { file: 'a.jpg', foot: 'RH' },
      'differs',
    ],
    ['any other file renamed', 'plan', { file: 'a.jpg' }, { file: 'b.jpg' }, 'differs'],
    ['changed and owned', 'visit', { gait: 1 }, { gait: 2, amended: [one] }, 'amended'],
    ['owned once more', 'visit', { gait: 1, amended: [one] }, { gait: 2, amended: [one, two] }, 'amended'],
    [
      'owned by an old correction only',
      'visit',
      { gait: 1, amended: [one] },
      { gait: 2, amended: [one] },
      'differs',
    ],
    ['a correction taken out', 'visit', { gait: 1, amended: [one] }, { gait: 1 }, 'differs'],
    [
      'a correction put for another',
      'visit',
      { gait: 1, amended: [one] },
      { gait: 1, amended: [two, one] },
      'differs',
    ],
    ['a correction as it was', 'visit', { gait: 1, amended: [one] }, { gait: 1, amended: [one] }, 'same'],
  ])('%s', (_, kind, sealed, now, fit) => {
    expect(fitsSeal(kind, sealed, now)).toBe(fit);
  });
});

describe('where two contents differ', () => {
  test('as deep as both go, in the order of keys; corrections are passed over', () => {
    const before = { b: { y: 1, x: 1 }, a: [{ k: 1 }, { k: 2 }], c: [1, 2], amended: [one] };
    const now = { b: { y: 2, x: 2 }, a: [{ k: 1 }, { k: 3 }, { k: 4 }], c: [1, 3], d: null, amended: [two] };
    expect(contentDifferences(before, now)).toEqual([
      { path: ['a', 1, 'k'], before: 2, now: 3 },
      { path: ['a', 2], before: undefined, now: { k: 4 } },
      { path: ['b', 'x'], before: 1, now: 2 },
      { path: ['b', 'y'], before: 1, now: 2 },
      { path: ['c'], before: [1, 2], now: [1, 3] },
      { path: ['d'], before: undefined, now: null },
    ]);
  });
});
