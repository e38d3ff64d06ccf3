import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const folder = new URL('../../layouts/css/', import.meta.url);
const sheets = readdirSync(folder).map((name) => readFileSync(new URL(name, folder), 'utf8'));

/** The rules inside each block that hangs on the width of the page. */
const byWidth = sheets.flatMap((css) =>
  [...css.matchAll(/@media[^{]*width[^{]*\{((?:[^{}]*\{[^{}]*\})*)[^{}]*\}/g)].map((match) => match[1]!),
);

test('there are rules that hang on the width', () => {
  expect(byWidth.join('').length).toBeGreaterThan(100);
});

test('no colour hangs on the width but that of labels: contrast looked over on a narrow page holds on a wide one', () => {
  const coloured = byWidth.flatMap(
    (rules) => rules.match(/(?:color|background|opacity|filter)[^;]*:[^;]*;/g) ?? [],
  );
  // The labels of stacked cells, narrow only; the wide page's own column heads are captions and dt, which narrow pages have too.
  expect(new Set(coloured)).toEqual(new Set(['color: var(--muted);']));
});
