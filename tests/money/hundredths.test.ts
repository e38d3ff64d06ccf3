import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { hundredthsOf, sumAsText } from '../../src/money/hundredths.js';

test('products by hand, rounded once, half up', () => {
  // 3 × 14.50 = 43.50
  expect(hundredthsOf(3, 14.5)).toBe(4350n);
  // 6 × 29.5 × 0.385 = 68.145, half up: 68.15. A sum in floating point gives 68.14499…
  expect(hundredthsOf(6, 29.5, 0.385)).toBe(6815n);
  // 1.005 is written as it is read: 1.01, where floating point would say 1.00
  expect(hundredthsOf(1.005)).toBe(101n);
  expect(hundredthsOf(0.004)).toBe(0n);
  expect(hundredthsOf(0, 45)).toBe(0n);
  expect(hundredthsOf(1e-7, 1e21)).toBe(100_000_000_000_000n * 100n);
});

test('a sum is printed with its two decimals', () => {
  expect([0n, 5n, 50n, 4350n, 123456789n].map(sumAsText)).toEqual([
    '0.00',
    '0.05',
    '0.50',
    '43.50',
    '1234567.89',
  ]);
});

test('what is no amount is refused', () => {
  for (const slip of [NaN, Infinity, -1]) expect(() => hundredthsOf(slip)).toThrow(RangeError);
});

test('whole hundredths times a count never round, whatever the size', () => {
  fc.assert(
    fc.property(fc.nat(1e9), fc.nat(1e7), (count, cents) => {
      expect(hundredthsOf(count, cents / 100)).toBe(BigInt(count) * BigInt(cents));
    }),
  );
});
