import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../src/cli/node-disk.js';
import { addVisit } from '../../src/keep/add-visit.js';
import { carryOut } from '../../src/keep/disk/carry-out.js';
import { readLedger } from '../../src/ledger/read-ledger.js';
import { undoLast } from '../../src/keep/undo-last.js';
import { animalText, farmText } from '../casefile/generated-cases.js';

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
  const undo = (day = disk.today()) => undoLast(keeping, 'quernholt', { day, by: undefined, why: undefined });
  return { cases, file, keeping, disk, add, undo };
}

test('a file saved by another program while the change is worked out: both are there', async () => {
  const { file, keeping, disk, add } = practiceOnDisk();
  let saved = 0;
  const done = await carryOut(disk, keeping, ['quernholt'], () => {
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
  const done = await carryOut(disk, keeping, ['quernholt'], () => {
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
  await expect(carryOut(full, keeping, ['quernholt'], add)).rejects.toThrow('full');
  expect(readFileSync(file, 'utf8')).toBe(animalText);
  expect(readdirSync(join(cases, 'quernholt/.growdown'))).toEqual([]);
});

test('the machine gives out between replacing and sealing: the entry stands whole, unsealed, and the next seals it', async () => {
  const { cases, file, keeping, disk, add } = practiceOnDisk();
  const chain = join(cases, 'quernholt/.growdown/ledger.jsonl');
  const dying = {
    ...disk,
    replace: (path: string, content: string | Uint8Array) => {
      if (path.endsWith('ledger.jsonl')) throw Object.assign(new Error('gone'), { code: 'EIO' });
      disk.replace(path, content);
    },
  };
  const done = await carryOut(dying, keeping, ['quernholt'], add);
  expect(done).toMatchObject({
    outcome: 'written',
    told: [expect.stringContaining('could not be sealed (EIO)')],
  });
  expect(existsSync(chain)).toBe(false);
  expect(readFileSync(file, 'utf8')).toContain('2026-02-03');
  const next = await carryOut(disk, keeping, ['quernholt'], () =>
    addVisit(keeping, 'quernholt', '2086', { date: '2026-03-03', by: 'Orla Venn', kind: 'recheck', gait: 0 }),
  );
  expect(next).toMatchObject({ outcome: 'written', told: [], sealed: [{ farm: 'quernholt', entries: 6 }] });
  const { entries, faults } = readLedger(readFileSync(chain, 'utf8'));
  expect(faults).toEqual([]);
  expect(entries.filter(({ kind }) => kind === 'visit').map(({ on }) => on)).toEqual([
    '2026-01-06',
    '2026-02-03',
    '2026-03-03',
  ]);
});

test('the last entry is taken back byte for byte, once', async () => {
  const { file, keeping, disk, add, undo } = practiceOnDisk();
  await carryOut(disk, keeping, ['quernholt'], add);
  expect(readFileSync(file, 'utf8')).not.toBe(animalText);
  expect(undo('2027-01-01')).toMatchObject({ outcome: 'cannot', message: expect.stringContaining('--why') });
  expect((await carryOut(disk, keeping, ['quernholt'], undo)).outcome).toBe('written');
  expect(readFileSync(file, 'utf8')).toBe(animalText);
  expect(undo()).toMatchObject({
    outcome: 'cannot',
    message: expect.stringContaining('nothing is remembered'),
  });
});

test('an entry in a file that has changed since is not taken back', async () => {
  const { file, keeping, disk, add, undo } = practiceOnDisk();
  await carryOut(disk, keeping, ['quernholt'], add);
  writeFileSync(file, `${readFileSync(file, 'utf8')}\nMine.\n`);
  expect(undo()).toMatchObject({ outcome: 'cannot', message: expect.stringContaining('has changed since') });
});
