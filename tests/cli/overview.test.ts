import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const files = {
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': animalFile('2086'),
  'cases/alderfold/farm.md': farmFile.replace('Quernholt', 'Alderfold'),
  'cases/alderfold/31.md': animalFile('31'),
};

test('the overview is written and reported in a line; a second run gives the same bytes', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('overview');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toContain('2 of 2 cases on file are open');
  const read = () => readFileSync(join(folder, 'books/overview.html'), 'utf8');
  const first = read();
  await growdown('overview');
  expect(read()).toBe(first);
  expect(JSON.parse((await growdown('overview', '--json')).out)).toMatchObject({
    bytes: Buffer.byteLength(first),
    refused: [],
  });
});

test('--farm covers one farm; one that is not there is wrong use and writes nothing', async () => {
  const { folder, growdown } = folderWith(files);
  expect(await growdown('overview', '--farm', 'nowhere')).toMatchObject({ code: 2, out: '' });
  expect(existsSync(join(folder, 'books'))).toBe(false);
  await growdown('overview', '--farm', 'alderfold');
  const html = readFileSync(join(folder, 'books/overview.html'), 'utf8');
  expect(html).toContain('Alderfold');
  expect(html).not.toContain('Quernholt');
});

test('a farm with an error is left out of every figure and named; the run says so', async () => {
  const { folder, put, growdown } = folderWith(files);
  put('cases/alderfold/31.md', animalFile('31').replace('state: open', 'state: opne'));
  const run = await growdown('overview');
  expect(run.code).toBe(1);
  expect(run.err).toContain('alderfold: not in the overview, because of the errors above');
  expect(readFileSync(join(folder, 'books/overview.html'), 'utf8')).toContain(
    'alderfold: left out of every figure here, because its files have errors',
  );
});
