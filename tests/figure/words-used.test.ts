import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readStrings } from '../../src/reference/words.js';

test('every word of the figures is said by one', () => {
  const folder = new URL('../../src/figure/', import.meta.url);
  const source = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => readFileSync(new URL(name, folder), 'utf8'))
    .join('\n');
  const unsaid = readStrings('en-GB')
    .map(([key]) => key)
    .filter((key) => key.startsWith('figure.'))
    .filter((key) => {
      const parts = key.replace(/\.(one|other)$/, '').split('.');
      // A key is said whole, or its last part (or the two last) is put together: `figure.wall.why.${reason}`.
      const [last, before] = [parts.at(-1)!, parts.at(-2)!];
      return !(
        source.includes(`'${last}'`) ||
        source.includes(`.${last}'`) ||
        source.includes(`${before}.\${`) ||
        source.includes(`'${before}.${last}'`)
      );
    });
  expect(unsaid).toEqual([]);
});
