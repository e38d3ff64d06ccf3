import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { messageWords } from '../../src/reference/words.js';

const sources = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => readFileSync(`src/${name}`, 'utf8'));
const words = messageWords();
/** The keys under `terminal`, without their plural forms. */
const keys = new Set(
  words.keys
    .filter((key) => key.startsWith('terminal.'))
    .map((key) => key.slice('terminal.'.length).replace(/\.(one|other)$/, '')),
);
const formsOf = (key: string): string[] =>
  ['', '.one', '.other'].map((form) => `terminal.${key}${form}`).filter((form) => words.has(form));

/** `terminal('KEY', { … })` as it is called, with all between its brackets. */
const calls = sources.flatMap((text) =>
  [...text.matchAll(/\bterminal\(\s*'([^']+)'/g)].map(({ 1: key, index }) => ({
    key: key!,
    given: inBrackets(text.slice(index + 'terminal'.length)),
  })),
);

function inBrackets(text: string): string {
  let deep = 0;
  const end = [...text].findIndex((sign) => (deep += sign === '(' ? 1 : sign === ')' ? -1 : 0) === 0);
  return text.slice(0, end);
}

test('every sentence that is said has its words', () => {
  expect(calls.length).toBeGreaterThan(200);
  expect(calls.filter(({ key }) => formsOf(key).length === 0)).toEqual([]);
});

test('every gap of a sentence gets its value', () => {
  const open = calls.flatMap(({ key, given }) =>
    // Values that are elsewhere are not looked for.
    /^\('[^']+',\s*[^\s{]|[{,]\s*\.\.\./.test(given)
      ? []
      : formsOf(key)
          .flatMap((form) => [...words.template(form).matchAll(/\{(\w+)\}/g)])
          .map(([, gap]) => gap!)
          .filter((gap) => !new RegExp(`[{,]\\s*${gap}\\s*[:,}]`).test(given))
          .map((gap) => `${key}: {${gap}}`),
  );
  expect(open).toEqual([]);
});

test('every sentence is said somewhere', () => {
  const literals = new Set(
    sources.flatMap((text) => [...text.matchAll(/'([\w.& -]+)'/g)].map(([, one]) => one)),
  );
  const made = sources
    .flatMap((text) => [...text.matchAll(/\b(?:terminal|cannot)\(\s*`((?:[^`$]|\$\{[^}]*\})+)`/g)])
    .map(([, key]) => new RegExp(`^${key!.replaceAll('.', '\\.').replaceAll(/\$\{[^}]*\}/g, '.*')}$`));
  const unsaid = [...keys].filter((key) => !literals.has(key) && !made.some((one) => one.test(key)));
  expect(unsaid).toEqual([]);
});
