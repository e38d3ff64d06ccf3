import { readFileSync, readdirSync } from 'node:fs';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import * as days from '../../src/record/calendar-day.js';
import { wordsOf } from '../../src/reference/words.js';

const files = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.[cm]?[jt]s$/.test(name))
  .map((name) => `src/${name.replaceAll('\\', '/')}`);

/** Each example in a doc comment, with what it is said to give: `@example EXPRESSION // → RESULT`. */
const examples = files.flatMap((file) =>
  [...readFileSync(file, 'utf8').matchAll(/@example\s(.*?)(?: \*\/)?$/gm)].map(([, example]) => ({
    file,
    example: example!,
  })),
);

test('the examples are found', () => {
  expect(examples.length).toBeGreaterThan(100);
});

test.each(examples)('$file: $example', async ({ file, example }) => {
  const [expression, result] = example.split(/\s*\/\/ → /);
  expect(result, 'what it gives: EXPRESSION // → RESULT').toBeDefined();
  const module = (await import(/* @vite-ignore */ new URL(`../../${file}`, import.meta.url).href)) as object;
  const known = { ...days, wordsOf, words: wordsOf('en-GB'), ...module };
  const given: unknown = runInNewContext(`(${expression})`, known);
  const said: unknown = runInNewContext(`(${result})`, known);
  if (typeof said === 'number') expect(given).toBeCloseTo(said, 12);
  else expect(given).toEqual(said);
});
