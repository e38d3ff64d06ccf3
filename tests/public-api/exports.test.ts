import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as growdown from '../../src/index.js';

const index = readFileSync(new URL('../../src/index.ts', import.meta.url), 'utf8');

/** Each name given out, a type or a value, with the file it stands in. */
const exported = [...index.matchAll(/^export (type )?\{([^}]+)\} from '(\.\/[^']+)\.js';/gm)].flatMap(
  ([, type, names, file]) =>
    names!
      .split(',')
      .map((name) => name.trim())
      .filter((name) => name !== '')
      .map((name) => ({
        name: name.replace(/^type /, ''),
        isType: type !== undefined || name.startsWith('type '),
        file: file!,
      })),
);

test('what others may use is all there', () => {
  const wanted = [
    'readPractice',
    'growthOfAnimal',
    'growingConditions',
    'publishedPrior',
    'priorsFor',
    'standingOfCase',
    'dueItems',
    'noticesOfCase',
    'composeBook',
    'renderBook',
    'intervalCensoredSurvival',
    'kaplanMeier',
    'permutationTest',
  ];
  expect(Object.keys(growdown)).toEqual(expect.arrayContaining(wanted));
  expect(Object.keys(growdown).sort()).toEqual(
    exported
      .filter(({ isType }) => !isType)
      .map(({ name }) => name)
      .sort(),
  );
});

test.each(exported)('$name has a doc comment', ({ name, file }) => {
  const source = readFileSync(new URL(`../../src/${file}.ts`, import.meta.url), 'utf8');
  const at = source.search(
    new RegExp(`^export (async )?(function|const|type|interface|class) ${name}\\b`, 'm'),
  );
  expect(at, `${name} is not declared in ${file}`).toBeGreaterThanOrEqual(0);
  expect(source.slice(0, at).trimEnd().endsWith('*/'), `${name} in ${file}`).toBe(true);
});

test('an interval-censored estimate is got from outside as promised', () => {
  const { support } = growdown.intervalCensoredSurvival([
    { after: 0, by: 10 },
    { after: 20, by: 20 },
    { after: 5, by: Infinity },
  ]);
  expect(support.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(1, 9);
});
