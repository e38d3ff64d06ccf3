import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { meetingPaths, pathTrouble } from '../../src/bag/path-trouble.js';
import { plainNames } from '../../src/bag/plain-names.js';

const named = (...paths: string[]) => Object.fromEntries(plainNames(paths));

test('a name every system takes is kept', () => {
  expect(named('photos/2086-2026-01-06-lh-sole.jpg', 'photos/My cow (2).JPG', '2086.md')).toEqual({
    'photos/2086-2026-01-06-lh-sole.jpg': 'photos/2086-2026-01-06-lh-sole.jpg',
    'photos/My cow (2).JPG': 'photos/My cow (2).JPG',
    '2086.md': '2086.md',
  });
});

test('a name some system does not take becomes a plain one near it, always the same', () => {
  expect(named('photos/Böck.jpg')).toEqual({ 'photos/Böck.jpg': 'renamed/bock-93ba63251450.jpg' });
  for (const path of [
    'photos/a:b.jpg',
    'photos/50%.jpg',
    'photos/nul.png',
    'photos/牛.webp',
    'Fotos ü/a.jpg',
  ])
    expect(pathTrouble(plainNames([path]).get(path)!)).toBeUndefined();
});

test('of names that differ in capitals, or in how an accent is written, none is lost', () => {
  const paths = ['photos/a.jpg', 'photos/A.jpg', 'Photos/b.jpg', 'photos/\u00e9.jpg', 'photos/e\u0301.jpg'];
  const names = [...plainNames(paths).values()];
  expect(names).toHaveLength(5);
  expect(meetingPaths(names).size).toBe(0);
});

test('whatever they are called: each gets a safe name, none the name of another, however they are listed', () => {
  const part = fc.oneof(
    fc.string({ minLength: 1, maxLength: 12 }),
    fc.constantFrom('con', 'a', 'A', 'photos', 'Photos', 'x.jpg', 'X.JPG', 'é.jpg'),
  );
  const path = fc.array(part, { minLength: 1, maxLength: 3 }).map((parts) => parts.join('/'));
  fc.assert(
    fc.property(fc.uniqueArray(path, { maxLength: 12 }), (paths) => {
      const names = plainNames(paths);
      expect([...names.values()].filter((name) => pathTrouble(name) !== undefined)).toEqual([]);
      expect(new Set(names.values()).size).toBe(paths.length);
      expect(new Map(plainNames(paths.toReversed()))).toEqual(names);
    }),
  );
});
