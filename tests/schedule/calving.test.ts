import { expect, it } from 'vitest';
import { calvingForbidsTravel, inMilkOn } from '../../src/schedule/calving.js';

it.each([
  ['2026-03-31', undefined],
  ['2026-04-01', 'after-calving'],
  ['2026-04-08', 'after-calving'],
  ['2026-04-09', undefined],
  // Due on 1 March 2027: the last tenth of 280 days begins 28 days before.
  ['2027-01-31', undefined],
  ['2027-02-01', 'before-calving'],
  ['2027-03-05', 'before-calving'],
] as const)('travel on %s: %s', (day, why) => {
  const animal = { calvings: ['2026-04-01'], 'due-to-calve': '2027-03-01' };
  expect(calvingForbidsTravel(animal, day)).toBe(why);
});

it('a day due that her last calving answered forbids nothing', () => {
  const animal = { calvings: ['2026-04-01'], 'due-to-calve': '2026-04-20' };
  expect(calvingForbidsTravel(animal, '2026-04-15')).toBeUndefined();
});

it('dry, in milk, not calved and not known', () => {
  const animal = { calvings: ['2025-06-20'], 'dried-off': ['2026-04-22'] };
  expect(inMilkOn(animal, '2025-06-19')).toBe('not-calved');
  expect(inMilkOn(animal, '2026-04-21')).toBe('in-milk');
  expect(inMilkOn(animal, '2026-05-01')).toBe('dry');
  expect(inMilkOn({}, '2026-05-01')).toBe('not-known');
});
