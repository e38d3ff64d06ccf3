import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const files = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };

test.each([[], ['--dry-run'], ['--farm', 'quernholt']])(
  'upgrade %s says that every file is of the newest format, and changes nothing',
  async (...words) => {
    const { folder, growdown } = folderWith(files);
    expect(await growdown('upgrade', ...words.flat())).toEqual({
      code: 0,
      out: '1 case file is of the newest format, casefile: 1; nothing to upgrade\n',
      err: '',
    });
    expect(JSON.parse((await growdown('upgrade', '--json')).out)).toEqual({
      format: 1,
      files: 1,
      older: 0,
      written: false,
    });
    expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toBe(
      files['cases/quernholt/2086.md'],
    );
  },
);

test('a file of a later format is reported with its place, and stops it', async () => {
  const { growdown } = folderWith({
    ...files,
    'cases/quernholt/2117.md': animalFile('2117').replace('casefile: 1', 'casefile: 2'),
  });
  const said = await growdown('upgrade');
  expect(said).toMatchObject({ code: 1, out: '' });
  expect(said.err).toContain('cases/quernholt/2117.md:2:11: error value/format-newer');
});

test('a wrong place is reported', async () => {
  expect((await folderWith({}).growdown('upgrade')).code).toBe(2);
  expect((await folderWith(files).growdown('upgrade', '--farm', 'nowhere')).code).toBe(2);
});
