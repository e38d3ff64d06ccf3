import { describe, expect, test } from 'vitest';
import { growthNumbers } from '../../src/reference/growth-numbers.js';
import { publishedSources } from '../../src/reference/sources.js';
import type { Address, SourcedNumber } from '../../src/reference/sourced.js';

interface Addressed {
  path: string;
  address: Address;
  number?: SourcedNumber;
}

function addressed(value: unknown, path: string): Addressed[] {
  if (typeof value !== 'object' || value === null) return [];
  if ('address' in value) {
    const { address } = value as { address: Address };
    return [{ path, address, ...('value' in value ? { number: value as SourcedNumber } : {}) }];
  }
  return Object.entries(value).flatMap(([key, inner]) =>
    addressed(inner, path === '' ? key : `${path}.${key}`),
  );
}

const all = addressed(growthNumbers, '');

describe.each(all)('$path', ({ address, number }) => {
  test('has an address: sources that are listed, a note where it was derived from none', () => {
    for (const id of address.source) expect(Object.keys(publishedSources)).toContain(id);
    if (address.how === 'read') expect(address.source.length).toBeGreaterThan(0);
    if (address.how === 'derived' && address.source.length === 0) expect(address.note).toBeTruthy();
  });

  test('lies in its own range, and has a unit', () => {
    if (number === undefined) return;
    expect(number.unit).not.toBe('');
    expect(number.value).toBeGreaterThanOrEqual(number.low ?? -Infinity);
    expect(number.value).toBeLessThanOrEqual(number.high ?? Infinity);
  });
});

test('there are numbers to look at', () => {
  expect(all.length).toBeGreaterThan(50);
});
