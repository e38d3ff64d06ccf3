import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk, ownWord, thisMachine } from '../../src/cli/node-disk.js';

const { replace: writeWhole } = nodeDisk('', nodeCaseFiles);

function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

test('a file is replaced whole, its folder made, and nothing is left beside it', () => {
  const folder = emptyFolder();
  const path = join(folder, 'new', 'book.html');
  writeWhole(path, 'first, and longer than the second');
  writeWhole(path, 'second');
  expect(readFileSync(path, 'utf8')).toBe('second');
  expect(readdirSync(join(folder, 'new'))).toEqual(['book.html']);
});

test('when the last step fails, what stood there stays and no half file is left', () => {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'book.html', 'kept'), { recursive: true });
  expect(() => writeWhole(join(folder, 'book.html'), 'new')).toThrow();
  expect(readdirSync(folder)).toEqual(['book.html']);
  expect(readdirSync(join(folder, 'book.html'))).toEqual(['kept']);
});

test('bytes are written as they are', () => {
  const path = join(emptyFolder(), 'picture');
  writeWhole(path, Uint8Array.of(0, 255, 10));
  chmodSync(path, 0o600);
  expect([...readFileSync(path)]).toEqual([0, 255, 10]);
});

test('what programs that ended in the middle left is swept where the next one writes, and nothing else', () => {
  const folder = emptyFolder();
  const mine = { pid: 10, host: 'here', isRunning: (pid: number) => pid === 11 };
  const machine = { ...thisMachine, process: mine };
  const word = (pid: number, host = 'here') => ownWord({ ...thisMachine, process: { ...mine, pid, host } });
  const long = new Date(Date.now() - 7_200_000);
  const put = (name: string, at = new Date()) => {
    writeFileSync(join(folder, name), '');
    utimesSync(join(folder, name), at, at);
    return name;
  };
  const kept = [
    put(`.2086.md.${word(11)}.tmp`),
    put(`.2086.md.${word(12, 'elsewhere')}.tmp`),
    put('.2086.md.12-3.tmp', long),
    put('notes.tmp', long),
    put('.2086.md.00000000-0000-4000-8000-000000000001.tmp'),
  ];
  put(`.2086.md.${word(12)}.tmp`);
  put(`.2086.md.${word(10)}.tmp`);
  put(`.2086.md.${word(12, 'elsewhere')}.tmp`, long);
  put('.2086.md.00000000-0000-4000-8000-000000000002.tmp', long);
  put('lock.taking', long);
  mkdirSync(join(folder, `archive.${word(12)}.tmp`, 'data'), { recursive: true });
  nodeDisk(folder, nodeCaseFiles, () => '2026-06-16', machine).replace('new', 'x');
  expect(readdirSync(folder).toSorted()).toEqual([...kept, 'new'].toSorted());
});
