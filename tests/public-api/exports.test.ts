import { readdirSync, readFileSync } from 'node:fs';
import { runInThisContext } from 'node:vm';
import { expect, test } from 'vitest';
import * as growdown from '../../src/index.js';

const index = readFileSync(new URL('../../src/index.ts', import.meta.url), 'utf8');

/** Each name given out, a type or a value, with the file it is in. */
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
    'pooledOn',
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
  expect(exported.filter(({ isType }) => isType).map(({ name }) => name)).toEqual(
    expect.arrayContaining(['Animal', 'Visit', 'Found', 'AnimalGrowth', 'Forecast']),
  );
});

test('the example above the exports runs as it stands', async () => {
  const example = [...index.matchAll(/^ \*     (.*)$/gm)].map(([, line]) => line).join('\n');
  const written = new Map<string, string>();
  const given = { ...growdown, writeFile: (name: string, html: string) => written.set(name, html) };
  const run = runInThisContext(`async ({ ${Object.keys(given).join(', ')} }) => {\n${example}\n}`) as (
    all: typeof given,
  ) => Promise<void>;
  await run(given);
  expect([...written.keys()].sort()).toEqual(
    readdirSync('cases', { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ name }) => `${name}.html`)
      .sort(),
  );
  for (const html of written.values()) expect(html).toMatch(/^\s*<!DOCTYPE html>.*<\/html>\s*$/s);
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
