import { expect, test } from 'vitest';
import { animal } from '../../src/record/animal.js';
import { calendarDay } from '../../src/record/calendar-day.js';
import { group, takes, key, keyAt, keysWithin, placeOf, placesOf } from '../../src/record/key.js';
import { visit } from '../../src/record/visit.js';

test('a key is found by the keys that lead to it, through lists, names and forms', () => {
  expect(keyAt(animal, 'visits.found.top')?.place.unit).toBe('mm');
  expect(keyAt(animal, 'visits.feet.lifted')?.place.sheet).toBe('each');
  expect(keyAt(animal, 'visits.vet-answer.does.on')?.holds).toBe(calendarDay);
  expect(keyAt(animal, 'visits.temper')).toBeUndefined();
  expect(placeOf(visit, 'temper')).toEqual({});
});

test('a day is given from a text, alone or in a list', () => {
  expect(
    ['born', 'calvings', 'visits.recheck', 'visits.note', 'tag'].map((way) =>
      takes(animal, way, calendarDay),
    ),
  ).toEqual([true, true, true, false, false]);
});

test('a group takes what its keys hold and nothing else, and gives the place of each', () => {
  const own = group({ on: key(calendarDay.optional(), { more: 1 }), by: calendarDay });
  expect(own.safeParse({ by: '2026-01-06', on: '2026-01-07' }).success).toBe(true);
  expect(own.safeParse({ by: '2026-01-06', of: 'x' }).success).toBe(false);
  expect(placesOf(own)).toEqual({ on: { more: 1 }, by: {} });
  expect(keysWithin(group({ list: key(own, {}) })).map(([way]) => way)).toEqual([
    'list',
    'list.on',
    'list.by',
  ]);
});
