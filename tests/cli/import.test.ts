import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Dialogue } from '../../src/run/dialogue.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const commented = animalFile('2086').replace('calvings:', '# her own comment\ncalvings:');
const files = {
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': commented,
  'cases/quernholt/2117.md': animalFile('2117').replace('calvings:', 'breed: Jersey\ncalvings:'),
  'herd.csv': [
    'Ear No;Official;Breed;Born;Calved;Sire',
    '2086;UK 000123 402086;Holstein;21/08/2020;05/11/2025;Bonnet',
    '2117;;Holstein;;;',
    '2131;UK 000123 402131;Jersey;01/02/2021;;',
    '',
  ].join('\r\n'),
};
const map = ['--map', 'Ear No=animal', '--map', 'Official=tag', '--map', 'Calved=calvings', '--map', 'Sire='];
const run = ['import', 'herd.csv', '--farm', 'quernholt'];

test('files are filled, all other bytes kept; what differs stays; who has no case is reported', async () => {
  const { folder, growdown } = folderWith(files);
  const said = await growdown(...run, ...map, '--days', 'day-first');
  expect(said).toMatchObject({ code: 0, err: '' });
  expect(said.out).toContain('2117.md: differs in breed: Jersey on file, Holstein in the list');
  expect(said.out).toContain('1 without a case here: 2131');
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toBe(
    commented
      .replace(
        'animal: "2086"\n',
        'animal: "2086"\ntag: "UK 000123 402086"\nbreed: "Holstein"\nborn: 2020-08-21\n',
      )
      .replace('2024-10-19]', '2024-10-19, 2025-11-05]'),
  );
  expect(readFileSync(join(folder, 'cases/quernholt/2117.md'), 'utf8')).toBe(
    files['cases/quernholt/2117.md'],
  );
  expect(existsSync(join(folder, 'cases/quernholt/2131.md'))).toBe(false);

  // Said once: columns and days are remembered, and the same list brings nothing new.
  const again = await growdown(...run);
  expect(again).toMatchObject({ code: 0, err: '' });
  expect(again.out).toContain('nothing to write');
  expect((await growdown('check')).code).toBe(0);

  // One entry, so one undo.
  expect(await growdown('undo', 'quernholt')).toMatchObject({ code: 0 });
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toBe(commented);
});

test('--replace writes what differs; --start opens a case; --dry-run writes nothing, not even what it was told', async () => {
  const { folder, growdown } = folderWith(files);
  const all = [...run, ...map, '--days', 'day-first', '--replace', '--start', '2131'];
  const dry = await growdown(...all, '--dry-run');
  expect(dry.out).toContain('nothing was written');
  expect(existsSync(join(folder, 'cases/.growdown'))).toBe(false);
  expect(readFileSync(join(folder, 'cases/quernholt/2117.md'), 'utf8')).toContain('Jersey');
  expect(await growdown(...all)).toMatchObject({ code: 0 });
  expect(readFileSync(join(folder, 'cases/quernholt/2117.md'), 'utf8')).toBe(
    files['cases/quernholt/2117.md'].replace('Jersey', '"Holstein"'),
  );
  expect(readFileSync(join(folder, 'cases/quernholt/2131.md'), 'utf8')).toBe(
    '---\ncasefile: 1\nanimal: "2131"\ntag: "UK 000123 402131"\nbreed: "Jersey"\nborn: 2021-02-01\nlesions: {}\nvisits: []\n---\n',
  );
});

test('a column nobody has placed and a day that may be two are asked about, or refused with the way out', async () => {
  const { growdown } = folderWith(files);
  const unplaced = await growdown(...run);
  expect(unplaced).toMatchObject({ code: 2, out: '' });
  for (const column of ['Ear No', 'Official', 'Calved', 'Sire'])
    expect(unplaced.err).toContain(`\`${column}\``);
  const either = await growdown(...run, ...map);
  expect(either).toMatchObject({ code: 2, out: '' });
  expect(either.err).toContain('herd.csv:2:');
  expect(either.err).toContain('--days');
  expect(await growdown(...run, '--map', 'Ear No=number')).toMatchObject({ code: 2 });
  expect(await growdown(...run, ...map, '--map', 'Breed=tag', '--days', 'day-first')).toMatchObject({
    code: 2,
  });
});

test('at a terminal it asks, once', async () => {
  const asked: string[] = [];
  const answers: Record<string, string> = {
    'Ear No': 'animal',
    Official: 'tag',
    Calved: 'calvings',
    Sire: '',
  };
  const dialogue: Dialogue = {
    choose: (question) => {
      asked.push(question);
      const [column] = Object.keys(answers).filter((name) => question.includes(`\`${name}\``));
      return Promise.resolve(column === undefined ? 'day-first' : answers[column]);
    },
    show: () => undefined,
    line: () => Promise.resolve(undefined),
  };
  const { growdown } = folderWith(files, { dialogue });
  expect(await growdown(...run)).toMatchObject({ code: 0 });
  expect(asked).toHaveLength(5);
  expect(await growdown(...run)).toMatchObject({ code: 0 });
  expect(asked).toHaveLength(5);
});

test('rows that cannot be taken are reported in one run, and nothing is written unless they are to be skipped', async () => {
  const { folder, growdown, put } = folderWith(files);
  const list =
    'animal,born,breed,calvings\n2086,2030-01-01,Holstein,\n2117,2020-13-01,,\n9,2021-01-01,Jersey,\n2117x,,,\n';
  put('bad.csv', list);
  const bad = await growdown('import', 'bad.csv', '--farm', 'quernholt', '--start', '9');
  expect(bad.code).toBe(1);
  expect(bad.err).toContain('bad.csv:3:6: error: born (born) is `2020-13-01`');
  // What only the record shows: she would be born after her calvings.
  expect(bad.err).toContain('bad.csv:2:1: error');
  expect(bad.err).toMatch(/2086\.md:\d+:\d+: error record\//);
  expect(bad.err).toContain('nothing was written: 2 of 4 rows');
  expect(existsSync(join(folder, 'cases/quernholt/9.md'))).toBe(false);
  const skipped = await growdown('import', 'bad.csv', '--farm', 'quernholt', '--start', '9', '--skip-bad');
  expect(skipped.code).toBe(0);
  expect(skipped.err).toContain('2 of 4 rows left out');
  expect(existsSync(join(folder, 'cases/quernholt/9.md'))).toBe(true);
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toBe(commented);
});

test('another cow that bore the number is not filled with this one’s marks', async () => {
  const tagged = animalFile('2086').replace('calvings:', 'tag: UK 000123 402086\ncalvings:');
  const { folder, growdown, put } = folderWith({ ...files, 'cases/quernholt/2086.md': tagged });
  put('other.csv', 'animal,tag,breed\n2086,UK 000123 502999,Jersey\n');
  const said = await growdown('import', 'other.csv', '--farm', 'quernholt');
  expect(said).toMatchObject({ code: 0 });
  expect(said.out).toContain('may be another animal');
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toBe(tagged);
  // The same mark without its spaces is the same, whatever the number.
  put('other.csv', 'animal,tag,breed\n2999,UK000123402086,Jersey\n');
  const moved = await growdown('import', 'other.csv', '--farm', 'quernholt');
  expect(moved.code).toBe(1);
  expect(moved.err).toContain('renumber');
  put('other.csv', 'tag,breed,calvings\nUK000123402086,Jersey,2024-10-22\n');
  const filled = await growdown('import', 'other.csv', '--farm', 'quernholt');
  expect(filled.out).toContain('differs in calvings: 2024-10-19 on file, 2024-10-22 in the list');
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toBe(
    tagged.replace('tag: UK 000123 402086\n', 'tag: UK 000123 402086\nbreed: "Jersey"\n'),
  );
});

test('an old list in Windows-1252 is said to be read so; a workbook is not read', async () => {
  const { folder, growdown } = folderWith(files);
  writeFileSync(
    join(folder, 'old.csv'),
    Uint8Array.from('animal,handling\n2086,tr\u00e4ge\n', (one) => one.codePointAt(0)!),
  );
  const old = await growdown('import', 'old.csv', '--farm', 'quernholt');
  expect(old).toMatchObject({ code: 0, err: 'old.csv is read as Windows-1252\n' });
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toContain('tr\u00e4ge');
  writeFileSync(join(folder, 'herd.xlsx'), 'PK\u0003\u0004');
  expect(await growdown('import', 'herd.xlsx', '--farm', 'quernholt')).toMatchObject({ code: 2 });
});
