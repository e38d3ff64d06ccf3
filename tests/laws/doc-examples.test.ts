import { readFileSync, readdirSync } from 'node:fs';
import { runInNewContext } from 'node:vm';
import { describe, expect, test } from 'vitest';

interface Example {
  file: string;
  expression: string;
  result: string;
}

/** The examples in doc comments that say what they give: `@example EXPRESSION // → RESULT`. */
function examplesIn(folder: string): Example[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) => {
      const file = `${folder}/${name}`;
      const found = readFileSync(file, 'utf8').matchAll(/@example (.*?)\s*\/\/ → (.*?)(?: \*\/)?$/gm);
      return [...found].map(([, expression, result]) => ({ file, expression: expression!, result: result! }));
    });
}

describe.each([
  ['src/growth', 4],
  ['src/statistics', 4],
  ['src/healing/closing', 1],
  ['src/herd', 8],
  ['src/money', 4],
] as const)('%s', (folder, atLeast) => {
  const examples = examplesIn(folder);

  test('has examples', () => {
    expect(examples.length).toBeGreaterThanOrEqual(atLeast);
  });

  test.each(examples)('$file: $expression', async ({ file, expression, result }) => {
    const days = await import('../../src/record/calendar-day.js');
    const module = (await import(
      /* @vite-ignore */ new URL(`../../${file}`, import.meta.url).href
    )) as Record<string, unknown>;
    const given: unknown = runInNewContext(`(${expression})`, { ...days, ...module });
    const said: unknown = runInNewContext(`(${result})`);
    if (typeof said === 'number') expect(given).toBeCloseTo(said, 12);
    else expect(given).toEqual(said);
  });
});
