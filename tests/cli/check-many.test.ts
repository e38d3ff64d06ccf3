import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

/** Every animal was lame without a word on pain relief; the first has a gait that no scale has. */
function many(animals: number) {
  const numbers = Array.from({ length: animals }, (_, at) => String(1000 + at));
  return folderWith({
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/999.md': animalFile('999').replace('gait: 2', 'gait: 7'),
    ...Object.fromEntries(numbers.map((one) => [`cases/quernholt/${one}.md`, animalFile(one)])),
    'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
    ...Object.fromEntries(numbers.map((one) => [`cases/harrowmere/${one}.md`, animalFile(one)])),
  });
}

const kind = 'gap/lame-without-pain-relief-word';

test('of very many the errors are listed, then how many there are of each kind; `--all` lists each', async () => {
  const { growdown } = many(240);
  const { err, out, code } = await growdown('check');
  expect(code).toBe(1);
  const lines = err.trimEnd().split('\n');
  expect(lines[0]).toMatch(/^cases\/quernholt\/999\.md:\d+:\d+: error /);
  expect(lines.at(-1)).toBe('`growdown check --all` lists every one.');
  expect(lines.filter((line) => line.includes(kind))).toEqual([
    expect.stringContaining(
      `240 × note ${kind}, the first in cases/harrowmere/1000.md: She was lame on 6 January 2026`,
    ),
  ]);
  const all = await growdown('check', '--all');
  expect(all.err.split('\n').filter((line) => line.includes(`note ${kind}`))).toHaveLength(240);
  expect(all.out).toBe(out);
});

test('of few each is listed', async () => {
  const { growdown } = many(3);
  const { err } = await growdown('check');
  expect(err.split('\n').filter((line) => line.includes(`note ${kind}`))).toHaveLength(3);
  expect(await growdown('check', '--all')).toMatchObject({ err });
});
