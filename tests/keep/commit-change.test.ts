import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../src/cli/node-disk.js';
import { journal } from '../../src/casefile/unfinished.js';
import { addVisit } from '../../src/keep/add-visit.js';
import { commitChange } from '../../src/keep/disk/commit-change.js';
import { undoEntry } from '../../src/keep/undo.js';
import { readLedger } from '../../src/ledger/read-ledger.js';
import { animalText, farmText } from '../casefile/generated-cases.js';
import { ledgerOf, ledgerPath, sealedFiles, sealing } from '../ledger/sealed-files.js';

function practiceOnDisk() {
  const cases = mkdtempSync(join(tmpdir(), 'growdown-'));
  onTestFinished(() => rmSync(cases, { recursive: true, force: true }));
  mkdirSync(join(cases, 'quernholt'));
  writeFileSync(join(cases, 'quernholt/farm.md'), farmText);
  const file = join(cases, 'quernholt/2086.md');
  writeFileSync(file, animalText);
  const keeping = { files: nodeCaseFiles, cases, today: '2026-11-25' };
  const disk = nodeDisk(cases, nodeCaseFiles);
  const add = () =>
    addVisit(keeping, 'quernholt', '2086', { date: '2026-02-03', by: 'Orla Venn', kind: 'recheck', gait: 1 });
  const undo = (day = disk.today()) =>
    undoEntry(keeping, 'quernholt', { day, by: undefined, why: undefined });
  return { cases, file, keeping, disk, add, undo };
}

test('a file saved by another program while the change is worked out: both are there', async () => {
  const { file, keeping, disk, add } = practiceOnDisk();
  let saved = 0;
  const done = await commitChange(disk, keeping, ['quernholt'], () => {
    const worked = add();
    if (saved++ === 0) writeFileSync(file, `${readFileSync(file, 'utf8')}\nSaved in an editor.\n`);
    return worked;
  });
  expect(done.outcome).toBe('written');
  expect(saved).toBe(2);
  expect(readFileSync(file, 'utf8')).toMatch(/gait: 1\n---\n\nSaved in an editor\.\n$/);
});

test('a file that is saved again and again is left to the other program', async () => {
  const { file, keeping, disk, add } = practiceOnDisk();
  const done = await commitChange(disk, keeping, ['quernholt'], () => {
    const worked = add();
    writeFileSync(file, `${readFileSync(file, 'utf8')}x`);
    return worked;
  });
  expect(done).toMatchObject({ outcome: 'cannot', message: expect.stringContaining('again and again') });
  expect(readFileSync(file, 'utf8')).not.toContain('gait: 1');
});

test('a disk that refuses leaves the file whole and no lock behind', async () => {
  const { cases, file, keeping, disk, add } = practiceOnDisk();
  const full = {
    ...disk,
    replace: () => {
      throw Object.assign(new Error('full'), { code: 'ENOSPC' });
    },
  };
  expect(await commitChange(full, keeping, ['quernholt'], add)).toMatchObject({
    outcome: 'cannot',
    message: expect.stringContaining('(ENOSPC); nothing of it was written'),
  });
  expect(readFileSync(file, 'utf8')).toBe(animalText);
  expect(readdirSync(join(cases, 'quernholt/.growdown'))).toEqual([]);
});

test('the ledger is written last, and where it cannot be, nothing of the entry is there', async () => {
  const { cases, file, keeping, disk, add } = practiceOnDisk();
  const written: string[] = [];
  const dying = {
    ...disk,
    replace: (path: string, content: string | Uint8Array) => {
      written.push(path.slice(cases.length + 1));
      if (path.endsWith('ledger.jsonl')) throw Object.assign(new Error('gone'), { code: 'EIO' });
      disk.replace(path, content);
    },
  };
  const done = await commitChange(dying, keeping, ['quernholt'], add);
  expect(done).toMatchObject({
    outcome: 'cannot',
    message: expect.stringContaining('nothing of it was written'),
  });
  expect(written.slice(0, 4)).toEqual([
    'quernholt/.growdown/journal.json',
    'quernholt/2086.md',
    'quernholt/.growdown/undo/1.json',
    'quernholt/.growdown/ledger.jsonl',
  ]);
  expect(readFileSync(file, 'utf8')).toBe(animalText);
  expect(readdirSync(join(cases, 'quernholt/.growdown'))).toEqual([]);
});

test('where only the last syncing fails, it says that it is on file', async () => {
  const { file, keeping, disk, add } = practiceOnDisk();
  const dying = {
    ...disk,
    remove: (path: string) => {
      disk.remove(path);
      if (path.endsWith('journal.json')) throw Object.assign(new Error('gone'), { code: 'EIO' });
    },
  };
  expect(await commitChange(dying, keeping, ['quernholt'], add)).toMatchObject({
    outcome: 'written',
    told: [expect.stringContaining('it is on file; that it outlives a power cut could not be made sure')],
  });
  expect(readFileSync(file, 'utf8')).toContain('2026-02-03');
});

test('the last entry is taken back byte for byte, once', async () => {
  const { file, keeping, disk, add, undo } = practiceOnDisk();
  await commitChange(disk, keeping, ['quernholt'], add);
  expect(readFileSync(file, 'utf8')).not.toBe(animalText);
  expect(undo('2027-01-01')).toMatchObject({ outcome: 'cannot', message: expect.stringContaining('--why') });
  expect((await commitChange(disk, keeping, ['quernholt'], () => undo())).outcome).toBe('written');
  expect(readFileSync(file, 'utf8')).toBe(animalText);
  expect(undo()).toMatchObject({
    outcome: 'cannot',
    message: expect.stringContaining('nothing is remembered'),
  });
});

test('an entry in a file that has changed since is not taken back', async () => {
  const { file, keeping, disk, add, undo } = practiceOnDisk();
  await commitChange(disk, keeping, ['quernholt'], add);
  writeFileSync(file, `${readFileSync(file, 'utf8')}\nMine.\n`);
  expect(undo()).toMatchObject({ outcome: 'cannot', message: expect.stringContaining('has changed since') });
});

test.each(['../x.md', 'a/../../x.md', 'a\\..\\..\\x.md', '/etc/x.md'])(
  'a journal that names %s, out of the cases folder, is not taken for one',
  (file) => {
    const named = { journal: 1, what: 'visit', files: [{ file, before: null, after: null }], folders: [] };
    expect(journal.safeParse(named).success).toBe(false);
    expect(journal.safeParse({ ...named, files: [{ ...named.files[0], file: 'a/x.md' }] }).success).toBe(
      true,
    );
  },
);

test('a last line whose end was lost is ended before anything goes behind it', () => {
  const files = { 'cases/quernholt/farm.md': farmText, 'cases/quernholt/2086.md': animalText };
  const sealed = ledgerOf(sealedFiles(files));
  const cut = { ...files, [ledgerPath]: sealed.trimEnd() };
  expect(sealing(cut, '2026-02-11').text).toBe(sealed);
  const more = sealing(
    { ...cut, 'cases/quernholt/2087.md': animalText.replace('2086', '2087') },
    '2026-02-11',
  );
  expect(more.text.startsWith(sealed)).toBe(true);
  const read = readLedger(more.text);
  expect(read.faults).toEqual([]);
  expect(read.entries).toHaveLength(readLedger(sealed).entries.length + more.added.length);
});
