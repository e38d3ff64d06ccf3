import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../src/cli/node-disk.js';

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
