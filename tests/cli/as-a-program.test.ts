import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

// What only a process of its own can show; `npm test` compiles before it tests.
const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const sound = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };

function run(folder: string, words: string[], env: Record<string, string> = {}) {
  return spawnSync(process.execPath, [program, ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
}

test('a book is the same on both sides of the date line', () => {
  const { folder } = folderWith(sound);
  const books = ['Pacific/Kiritimati', 'America/Los_Angeles'].map((TZ) => {
    const done = run(folder, ['books', '--today', '2026-06-16', '--out', TZ], { TZ });
    expect(done.status, done.stderr).toBe(0);
    return readFileSync(join(folder, TZ, 'quernholt.html'), 'utf8');
  });
  expect(books[0]).toBe(books[1]);
});

test('today is the day where the user sits', () => {
  const { folder } = folderWith(sound);
  const days = ['Pacific/Kiritimati', 'Pacific/Pago_Pago'].map((TZ) => {
    run(folder, ['books', '--out', TZ], { TZ });
    const html = readFileSync(join(folder, TZ, 'quernholt.html'), 'utf8');
    return /<title>(.*)<\/title>/.exec(html)?.[1];
  });
  // Kiritimati is 25 hours ahead of Pago Pago: never the same day.
  expect(days[0]).not.toBe(days[1]);
});

test('a project of the user’s own around the cases is left alone', () => {
  const { folder } = folderWith({
    ...sound,
    'package.json': '{ "type": "module", "name": "not-yours"',
    'eleventy.config.js': "throw new Error('the user’s own configuration was run');",
    '.eleventy.js': "throw new Error('the user’s own configuration was run');",
  });
  const done = run(folder, ['books', '--today', '2026-06-16']);
  expect(done.stderr).toBe('');
  expect(done.status).toBe(0);
});

test.skipIf(process.platform === 'win32')('a reader that closes the pipe early is no fault', () => {
  const many = Object.fromEntries(
    Array.from({ length: 300 }, (_, i) => [`cases/quernholt/${i}.md`, animalFile(String(i), 'top: 22 mm')]),
  );
  const { folder } = folderWith({ ...sound, ...many });
  const said = execFileSync('sh', ['-c', `"${process.execPath}" "${program}" check --json | head -c 20`], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 20_000,
  });
  expect(said).toHaveLength(20);
});

test('versions and help are results', () => {
  const { folder } = folderWith({});
  expect(run(folder, ['--version'])).toMatchObject({ status: 0, stderr: '' });
  const help = run(folder, ['books', '--help']);
  expect(help.status).toBe(0);
  for (const option of ['--cases', '--out', '--farm', '--today', '--json'])
    expect(help.stdout).toContain(option);
});

test('many farms have the same books from what was kept as anew, and said in the same order, wherever they are made', () => {
  const many = Object.fromEntries(
    Array.from({ length: 10 }, (_, at) => [
      [`cases/farm-${at}/farm.md`, farmFile],
      [`cases/farm-${at}/2086.md`, animalFile('2086')],
    ]).flat(),
  );
  const { folder } = folderWith(many);
  const made = [
    ['--no-cache'],
    [],
    // From what was kept: the books are there, and then they are gone.
    [],
  ].map((more, at) => {
    if (at === 2) rmSync(join(folder, 'books', 'farm-3.html'));
    const where = {
      TZ: ['Asia/Tokyo', 'America/Lima', 'UTC'][at]!,
      LC_ALL: ['C', 'tr_TR.UTF-8', 'de_DE'][at]!,
    };
    const { stdout, stderr } = run(folder, ['books', '--today', '2026-06-16', ...more], where);
    const books = Object.keys(many)
      .filter((file) => file.endsWith('farm.md'))
      .map((file) => readFileSync(join(folder, 'books', `${file.split('/')[1]}.html`), 'utf8'));
    return { stdout, stderr, books };
  });
  expect(made[0]!.stdout.trimEnd().split('\n')).toHaveLength(10);
  expect(made[1]).toEqual(made[0]);
  expect(made[2]).toEqual(made[0]);
});
