import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const picture = readFileSync(new URL('../../cases/quernholt/photos/' + firstPicture(), import.meta.url));
function firstPicture(): string {
  const [, file = ''] =
    /file: photos\/([^,\s]+)/.exec(
      readFileSync(new URL('../../cases/quernholt/2086.md', import.meta.url), 'utf8'),
    ) ?? [];
  return file;
}

const withPicture = animalFile('2086')
  .replace('calvings:', 'handling: "kicks left <b>"\ncalvings:')
  .replace(
    '    found:',
    '    recheck: 2026-06-20\n    photos: [{ file: photos/a.jpg, foot: LH, claw: outer, view: sole }]\n    found:',
  );
const files = {
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': withPicture,
  'cases/quernholt/photos/a.jpg': picture,
  'cases/quernholt/2117.md': animalFile('2117').replace('    found:', '    recheck: 2026-09-01\n    found:'),
};

test('a sheet of the animals due, with handling, what is due and no picture; --to and --all take more', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('sheet');
  expect(run).toMatchObject({ code: 0, err: '' });
  const html = readFileSync(join(folder, 'books/quernholt-sheet.html'), 'utf8');
  expect(html).toContain('kicks left &lt;b&gt;');
  expect(html).not.toContain('data:image/');
  expect(html).toContain('20 June 2026, trimmer');
  const more = JSON.parse((await growdown('sheet', '--all', '--json')).out) as {
    sheets: { animals: string[] }[];
  };
  expect(more.sheets[0]?.animals).toEqual(['2086', '2117']);
  const late = JSON.parse(
    (await growdown('sheet', '--from', '2026-07-01', '--to', '2026-09-30', '--json')).out,
  ) as typeof more;
  expect(late.sheets[0]?.animals).toContain('2117');
});

test('where nothing is due it says so and writes nothing; --blank writes a sheet of nobody', async () => {
  const { folder, growdown } = folderWith({ 'cases/quernholt/farm.md': farmFile });
  const none = await growdown('sheet', '--out', 'sheets');
  expect(none.out).toContain('quernholt: no animal is due');
  expect(existsSync(join(folder, 'sheets'))).toBe(false);
  expect(await growdown('sheet', '--blank', '--out', 'sheets')).toMatchObject({ code: 0 });
  expect(await growdown('sheet', '--blank', '--farm', 'quernholt', '--out', 'sheets')).toMatchObject({
    code: 0,
  });
  expect(readFileSync(join(folder, 'sheets/quernholt-sheet-blank.html'), 'utf8')).toContain('UK 0–3');
  expect(readFileSync(join(folder, 'sheets/sheet-blank.html'), 'utf8')).toContain('Score, and its scale');
});

test('a farm with an error gets no sheet, and the error is reported', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'cases/quernholt/2117.md': animalFile('2117').replace('first', 'frist'),
  });
  const run = await growdown('sheet');
  expect(run.code).toBe(1);
  expect(run.err).toContain('quernholt: no sheet');
  expect(existsSync(join(folder, 'books'))).toBe(false);
});
