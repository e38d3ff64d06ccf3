import { readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { farmOfSave } from '../../src/cli/watch-books.js';
import { nodeWatch } from '../../src/cli/node-effects.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const twoFarms = {
  'cases/business.md': '---\nbusiness: Venn\n---\n',
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': animalFile('2086'),
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/31.md': animalFile('31'),
};

/** A watch that runs, on the real disk, until it is stopped; `said` resolves when something new is said that has the words. */
function watched(files: Readonly<Record<string, string>>, ...words: string[]) {
  let stop = (): void => {};
  const stopped = new Promise<void>((resolve) => (stop = resolve));
  let text = '';
  let read = 0;
  let heard = (): void => {};
  const hear = (more: string): void => {
    text += more;
    heard();
  };
  const real = nodeWatch();
  const made = folderWith(files, {
    watch: { ...real, stopped },
    print: hear,
    warn: hear,
  });
  const run = made.growdown('books', '--watch', ...words);
  const said = async (wanted: string): Promise<string> => {
    for (;;) {
      const at = text.indexOf(wanted, read);
      const end = at < 0 ? -1 : text.indexOf('\n', at);
      if (end >= 0) {
        const since = text.slice(read, end);
        read = end;
        return since;
      }
      await new Promise<void>((resolve) => (heard = resolve));
    }
  };
  const at = (name: string): string => join(made.folder, name);
  const book = (farm: string): string => readFileSync(at(`books/${farm}.html`), 'utf8');
  /** Waits for a build after which it holds: one save may be reported twice, and then builds twice. */
  const built = async (what: string, holds: () => boolean): Promise<void> => {
    do await said(`${what}: done in`);
    while (!holds());
  };
  return { ...made, run, stop, said, built, at, book, unread: () => text.slice(read) };
}

test('the farm whose file is saved gets its book anew, and a broken save keeps the last good one', async () => {
  const { said, built, at, book, run, stop, put } = watched(twoFarms);
  expect(await said('Ctrl+C stops')).toMatch(/all farms: done in \d+\.\d s/);
  const other = statSync(at('books/harrowmere.html')).mtimeMs;

  put('cases/quernholt/2086.md', animalFile('2086').replace('Invented', 'Saved'));
  await built('quernholt', () => book('quernholt').includes('Saved for a test'));
  const good = book('quernholt');

  put('cases/quernholt/2086.md', animalFile('2086').replace('kind: first', 'kind: frist'));
  const broken = await said('quernholt: done as far as it goes');
  expect(broken).toContain('2086.md:10:11');
  expect(broken).toContain('no new book');
  expect(book('quernholt')).toBe(good);

  // As many editors save: beside the file, then moved over it.
  writeFileSync(at('cases/quernholt/2086.md~'), animalFile('2086').replace('Invented', 'Renamed'));
  renameSync(at('cases/quernholt/2086.md~'), at('cases/quernholt/2086.md'));
  await built('quernholt', () => book('quernholt').includes('Renamed for a test'));

  put('cases/quernholt/2099.md', animalFile('2099'));
  await built('quernholt', () => book('quernholt').includes('2099'));
  rmSync(at('cases/quernholt/2099.md'));
  await built('quernholt', () => !book('quernholt').includes('2099'));
  expect(statSync(at('books/harrowmere.html')).mtimeMs).toBe(other);

  put('cases/business.md', '---\nbusiness: Venn and Brickles\n---\n');
  await built('all farms', () => book('harrowmere').includes('Venn and Brickles'));

  stop();
  expect(await run).toMatchObject({ code: 0 });
}, 120_000);

test('a new farm gets a book; one whose folder is gone keeps its own', async () => {
  const { said, at, book, run, stop, put } = watched(twoFarms);
  await said('Ctrl+C stops');
  put('cases/coldharbour/farm.md', farmFile.replace('Quernholt', 'Coldharbour Fold'));
  await said('coldharbour: done');
  expect(book('coldharbour')).toContain('Coldharbour Fold');
  rmSync(at('cases/harrowmere'), { recursive: true });
  await said('harrowmere: it is no longer a farm');
  expect(book('harrowmere')).toContain('Harrowmere');
  stop();
  expect(await run).toMatchObject({ code: 0 });
}, 120_000);

test('with --farm, saves of other farms build nothing', async () => {
  const { said, at, run, stop, put, unread } = watched(twoFarms, '--farm', 'quernholt');
  await said('Ctrl+C stops');
  put('cases/harrowmere/31.md', animalFile('31').replace('Invented', 'Saved'));
  put('cases/quernholt/2086.md', animalFile('2086').replace('Invented', 'Saved'));
  expect(await said('quernholt: done in')).not.toContain('harrowmere');
  stop();
  await run;
  expect(unread()).not.toContain('harrowmere');
  expect(() => statSync(at('books/harrowmere.html'))).toThrow('ENOENT');
}, 120_000);

test('what cannot be watched is said', async () => {
  const { growdown } = folderWith(twoFarms);
  expect(await growdown('books', '--watch')).toMatchObject({ code: 2 });
  const { run } = watched({}, '--cases', 'nowhere');
  expect(await run).toMatchObject({ code: 2 });
  const { run: json } = watched(twoFarms, '--json');
  expect(await json).toMatchObject({ code: 2 });
});

test('which saves build a book', () => {
  expect(farmOfSave('quernholt/photos/a.JPG')).toEqual({ farm: 'quernholt' });
  expect(farmOfSave('harrowmere')).toEqual({ farm: 'harrowmere' });
  for (const name of ['quernholt/2086.md~', 'notes.txt', 'readme.md', 'quernholt/4913'])
    expect(farmOfSave(name)).toBe(undefined);
});
