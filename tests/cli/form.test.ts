import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const files = {
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': animalFile('2086'),
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/3.md': animalFile('3', 'top: 17, wall: 4'),
};

test('one file for the farm named, with her animals and nobody else’s; the same records give the same bytes', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('form', 'quernholt/');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toMatch(/^books.quernholt-form\.html {2}Quernholt: 1 animal, 1 visit; \d+ kB\n/);
  expect(run.out).toContain('as on 2026-06-16');
  const html = readFileSync(join(folder, 'books/quernholt-form.html'), 'utf8');
  expect(html).toContain('"number":"2086"');
  expect(html).not.toContain('Harrowmere');
  const json = await growdown('form', 'quernholt', '--json', '--out', 'elsewhere');
  expect(JSON.parse(json.out)).toEqual({
    farm: 'quernholt',
    file: join('elsewhere', 'quernholt-form.html'),
    animals: 1,
    bytes: Buffer.byteLength(html),
  });
  expect(readFileSync(join(folder, 'elsewhere/quernholt-form.html'), 'utf8')).toBe(html);
});

test('a farm with an error gets no form, one that is not there is reported', async () => {
  const { growdown } = folderWith(files);
  const wrong = await growdown('form', 'harrowmere');
  expect(wrong).toMatchObject({ code: 1, out: '' });
  expect(wrong.err).toContain('record/top-beyond-wall');
  expect(wrong.err).toContain('harrowmere: no form, because of the errors above');
  const none = await growdown('form', 'quernhold');
  expect(none).toMatchObject({ code: 2, out: '' });
  expect(none.err).toContain('quernholt');
  expect(none.err).not.toContain('no form');
});
