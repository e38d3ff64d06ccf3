import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const src = new URL('../../src/', import.meta.url);

/** A call takes so many arguments and no more: some 120,000 on Node 20. A few bytes of a file's beginning may be spread. */
const spread =
  /\b(?:push|unshift|Math\.(?:max|min)|fromCodePoint)\(\s*(?:[^(){}[\]]*,\s*)?\.\.\.|\bfromCharCode\(\s*\.\.\.(?!bytes\.subarray\(0, \d+\)|start\))/g;

test('no list is spread into the arguments of a call', () => {
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  const found = files.flatMap((file) =>
    [...readFileSync(new URL(file.replaceAll('\\', '/'), src), 'utf8').matchAll(spread)].map(
      ([text]) => `${file}: ${text}`,
    ),
  );
  expect(files.length).toBeGreaterThan(300);
  expect(found).toEqual([]);
});

test('the rule can fail', () => {
  for (const wrong of [
    'all.push(...some)',
    'Math.max(0, ...some)',
    'Math.min(\n  ...some',
    'String.fromCharCode(...all)',
  ])
    expect(wrong.match(spread), wrong).not.toBeNull();
  expect('all.push({ ...some })'.match(spread)).toBeNull();
});
