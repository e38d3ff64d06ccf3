import { expect, test } from 'vitest';
import { animalFile, farmFile, filesFrom, folderWith } from '../cli/run-in-folder.js';
import type { Effects } from '../../src/run/effects.js';
import { exitCode, WrongUse } from '../../src/run/exit-code.js';
import { farmRun } from '../../src/run/farm-run.js';

/** Three farms, the first with an error in a file of hers; what is said and written is gathered. */
function begun(options: { json?: true } = {}, changed: Partial<Effects> = {}) {
  const farm = (name: string) => farmFile.replace('Quernholt', name);
  const { folder } = folderWith({
    'cases/alderfold/farm.md': farm('Alderfold'),
    'cases/alderfold/1.md': animalFile('1').replace('casefile: 1', 'casefile: 1\nwrong: 1'),
    'cases/harrowmere/farm.md': farm('Harrowmere'),
    'cases/harrowmere/11.md': animalFile('11'),
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/2086.md': animalFile('2086'),
  });
  const said = { out: '', err: '', files: new Map<string, unknown>() };
  const effects = {
    folder,
    today: () => '2026-06-16',
    files: filesFrom(folder),
    writeFile: (path: string, content: unknown) => void said.files.set(path, content),
    print: (text: string) => void (said.out += text),
    warn: (text: string) => void (said.err += text),
    terminalWidth: undefined,
    ...changed,
  } as unknown as Effects;
  const run = farmRun({ cases: './cases', out: 'books', ...options }, effects, { refused: 'books.refused' });
  return { run, said, folder };
}

test('what stops the work on one farm is said, the others are worked on, and the worst of all is how it ends', async () => {
  const { run, said } = begun();
  expect(run.code()).toBe(exitCode.problems);
  const done = await run.each(({ slug }) => {
    if (slug === 'harrowmere') throw new WrongUse('the page is stuck');
    return slug;
  });
  expect(done).toEqual(['quernholt']);
  expect(said.err).toContain('\nharrowmere: the page is stuck\n');
  expect(run.end({})).toBe(exitCode.wrongUse);
});

test('a fault of the program’s own is worse than all, and is not the last farm’s to hide', async () => {
  const { run, said } = begun();
  await run.each(({ slug }) => {
    if (slug === 'harrowmere') throw new RangeError('slip');
  });
  expect(run.end({})).toBe(exitCode.ownFault);
  expect(said.err).toMatch(/harrowmere: a fault in this program.*\nRangeError: slip\n/);
});

test('problems and farms with an error are told once, before the first farm', async () => {
  const { run, said } = begun();
  expect(said.err).toBe('');
  let before = '';
  await run.each(() => void (before ||= said.err));
  run.tell();
  await run.each(() => undefined);
  expect(said.err).toBe(before);
  expect(said.err.match(/: error /g)).toHaveLength(1);
  expect(said.err).toMatch(
    /1 error in 1 of \d+ files\nalderfold: no new book, because of the errors above; .*\n$/,
  );
});

test('a result is written under --out and shown as typed; lines or JSON, never both', async () => {
  const lines = begun();
  expect(lines.run.write('a.html', 'A')).toBe('books/a.html');
  expect([...lines.said.files.keys()]).toEqual([`${lines.folder}/books/a.html`]);
  lines.run.say('a line');
  lines.run.end({ of: 1 });
  expect(lines.said.out).toBe('a line\n');
  const json = begun({ json: true });
  json.run.say('a line');
  json.run.end({ of: 1 });
  expect(JSON.parse(json.said.out)).toEqual({ of: 1 });
});

test('at a terminal a line tells of each farm, cut to its width, and is gone before anything else is said', async () => {
  const { run, said } = begun({}, { terminalWidth: 12 });
  await run.each((farm, show) => {
    show('pictures', 3, 4);
    if (farm.slug === 'quernholt') throw new WrongUse('stuck');
  });
  const clear = '\r\u001B[2K';
  expect(said.err).toContain(`${clear}1 of 2  Har${clear}3 of 4  pic`);
  expect(said.err.endsWith(`${clear}2 of 2  Que${clear}3 of 4  pic${clear}quernholt: stuck\n`)).toBe(true);
});
