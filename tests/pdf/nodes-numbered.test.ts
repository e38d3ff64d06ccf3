import { expect, test } from 'vitest';
import { nodesNumbered } from '../../src/pdf/open-printer.js';

const renamed = (text: string) => Buffer.from(nodesNumbered(Buffer.from(text, 'latin1'))).toString('latin1');

test('two prints that differ by where the browser’s count stood become the same bytes', () => {
  const print = (from: number) =>
    [1, 0, 7].map((plus) => `/ID (node${String(from + plus).padStart(8, '0')})\n\xe9`).join('');
  expect(renamed(print(43))).toBe(renamed(print(44)));
  expect(renamed(print(43))).toBe('/ID (node00000002)\n\xe9/ID (node00000001)\n\xe9/ID (node00000003)\n\xe9');
});

test('a name keeps its place in the sorted list and is the same wherever it is', () => {
  expect(renamed('/Headers [(node00000912)] /Names [(node00000050) 1 0 R (node00000912) 2 0 R]')).toBe(
    '/Headers [(node00000002)] /Names [(node00000001) 1 0 R (node00000002) 2 0 R]',
  );
});

test('words of the page in brackets are not names', () => {
  const said = String.raw`/Alt (as in \(node00000044\), said Marra) /T (node44)`;
  expect(renamed(said)).toBe(said);
});
