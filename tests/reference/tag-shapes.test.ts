import { expect, it } from 'vitest';
import { missedElectronicShape, missedTagShape } from '../../src/casefile/check/check-animal.js';

it('finds the scheme a tag begins like, and what it misses', () => {
  const misses = (tag: string) => missedTagShape(tag) !== undefined;
  expect(
    ['UK 000123 402086', 'uk000123-702086', '840 000 000 402 086', 'XI 000123', 'DE 0000000001'].filter(
      misses,
    ),
  ).toEqual([]);
  expect(
    [
      'UK 000123 802086',
      'UK 000123 002086',
      'UK 00123 402086',
      '840 000 402 086',
      'DE 0000000000001',
      'IE 12A4',
    ].filter(misses),
  ).toHaveLength(6);
});

it('leaves marks alone that begin like no scheme it knows', () => {
  expect(['NBCD1234 X T 00123', 'DAISY-14', '2086'].map(missedTagShape)).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
});

it('wants fifteen digits of an electronic number', () => {
  expect(missedElectronicShape('999 000000402086')).toBeUndefined();
  expect(missedElectronicShape('99900000040208')?.said).toBe('fifteen digits');
});
