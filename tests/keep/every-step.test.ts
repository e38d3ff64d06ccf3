import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  copyOf,
  everyStep,
  failures,
  growdown,
  practice,
  readyFor,
  stopAndMend,
  stoppedAt,
  tried,
  undo,
} from './broken-off.js';

/** Of a command of many calls only every so many are tried here, and all by `npm run soak`. */
const everyNth = (name: string): number =>
  ({ archive: 240, books: 5, post: 9, 'take (note)': 5, 'take (inbox)': 2, import: 3, move: 3, 'correct (taken out)': 2, 'undo (further back)': 2, 'undo (inbox)': 2, 'move-visit (day)': 3, 'move-visit (farm)': 5 })[name] ?? 1; // prettier-ignore

describe.each(tried)('$name', (one) => {
  test('killed or refused at any call of the disk: old or new, and the next command repairs it', async () => {
    const ready = await readyFor(one);
    try {
      expect(ready.count).toBeGreaterThan(5);
      const nth = everyNth(one.name);
      expect(
        await everyStep(ready, nth, (at) => stopAndMend(ready, at, 'killed', { slow: at % 7 === 0 })),
      ).toEqual([]);
      const code = (at: number) => failures[at % failures.length]!;
      expect(await everyStep(ready, nth, (at) => stopAndMend(ready, at, code(at)))).toEqual([]);
    } finally {
      rmSync(ready.folder, { recursive: true });
    }
  }, 120_000);
});

test('undo takes back an entry that was broken off and no other; of one that never began, the one before', async () => {
  const visit = tried.find(({ name }) => name === 'visit')!;
  const ready = await readyFor(visit);
  const seen = new Set<string>();
  const wrong = await everyStep(ready, 1, async (at) => {
    const there = copyOf(ready.folder);
    await growdown(there, visit.words, stoppedAt(at, 'killed'));
    const farm = join(there, 'cases/quernholt');
    const file = () => readFileSync(join(farm, '2086.md'), 'utf8');
    const began = existsSync(join(farm, '.growdown/journal.json')) || file().includes('2026-06-02');
    seen.add(String(began));
    expect(await growdown(there, undo)).toMatchObject({ code: 0 });
    expect(file()).not.toContain('2026-06-02');
    expect(file().includes('2026-05-05')).toBe(began);
    rmSync(there, { recursive: true });
  });
  expect(wrong).toEqual([]);
  expect([...seen].toSorted()).toEqual(['false', 'true']);
  rmSync(ready.folder, { recursive: true });
}, 60_000);

test('what is undone waits in the inbox where it is no longer on file, and only there, at whatever call it is broken off', async () => {
  const ready = await readyFor(tried.find(({ name }) => name === 'undo (inbox)')!);
  const seen = new Set<string>();
  const wrong = await everyStep(ready, 2, async (at) => {
    const there = copyOf(ready.folder);
    await growdown(there, ready.one.words, stoppedAt(at, 'killed'));
    expect(await growdown(there, ['seal'])).toMatchObject({ code: 0 });
    const isOnFile = readFileSync(join(there, 'cases/quernholt/2086.md'), 'utf8').includes('2026-06-16');
    const waits = (await growdown(there, ['take', '--dry-run'])).out.includes('would be added');
    seen.add(`${isOnFile} ${waits}`);
    rmSync(there, { recursive: true });
  });
  expect(wrong).toEqual([]);
  expect([...seen].toSorted()).toEqual(['false true', 'true false']);
  rmSync(ready.folder, { recursive: true });
}, 60_000);

test('what somebody saved after an entry was broken off is left as it lies, and is named', async () => {
  const visit = tried.find(({ name }) => name === 'visit')!;
  const ready = await readyFor(visit);
  const there = copyOf(ready.folder);
  const file = join(there, 'cases/quernholt/2086.md');
  for (let at = 1; !readFileSync(file, 'utf8').includes('2026-06-02'); at += 1)
    await growdown(there, visit.words, stoppedAt(at, 'killed'));
  writeFileSync(file, `${readFileSync(file, 'utf8')}\nSaved in an editor.\n`);
  const next = await growdown(there, ['seal']);
  expect(next).toMatchObject({
    code: 0,
    err: expect.stringContaining('2086.md: saved by another program since'),
  });
  expect(readFileSync(file, 'utf8')).toMatch(/2026-06-02[^]*Saved in an editor/);
  expect(await growdown(there, ['check'])).toMatchObject({ code: 0 });
  for (const folder of [there, ready.folder]) rmSync(folder, { recursive: true });
});

test('a journal nobody can read stops writing on its farm with the way out, and reading and other farms not', async () => {
  const folder = await practice(tried[0]!);
  const path = join(folder, 'cases/quernholt/.growdown/journal.json');
  writeFileSync(path, '{"journal":');
  const refused = await growdown(folder, tried[0]!.words);
  expect(refused).toMatchObject({ code: 2, err: expect.stringContaining('then move this file away') });
  const check = await growdown(folder, ['check']);
  expect(check).toMatchObject({ code: 0, err: expect.stringContaining('journal.json: the last entry was interrupted') }); // prettier-ignore
  expect(await growdown(folder, ['visit', 'harrowmere/11', '--date', '2026-06-02', '--by', 'Orla Venn', '--gait', '1'])).toMatchObject({ code: 0 }); // prettier-ignore
  rmSync(path);
  expect(await growdown(folder, tried[0]!.words)).toMatchObject({ code: 0 });
  rmSync(folder, { recursive: true });
});

test('an entry on two farms is one of both: taken back from either, and from behind one that does not depend on it', async () => {
  const move = tried.find(({ name }) => name === 'move')!;
  const ready = await readyFor(move);
  const there = copyOf(ready.folder);
  const arrived = () => existsSync(join(there, 'cases/harrowmere/2086.md'));
  const visit = (cow: string) => growdown(there, ['visit', cow, '--date', '2026-06-16', '--by', 'Orla Venn', '--gait', '1']); // prettier-ignore
  await growdown(there, move.words);
  expect(arrived()).toBe(true);
  expect(await growdown(there, ['undo', 'harrowmere'])).toMatchObject({ code: 0 });
  expect(arrived()).toBe(false);
  expect(await growdown(there, ['undo', 'harrowmere'])).toMatchObject({ code: 2, err: expect.stringContaining('nothing is remembered') }); // prettier-ignore
  await growdown(there, move.words);
  await visit('quernholt/2087');
  await visit('harrowmere/2086');
  expect(await growdown(there, ['undo', 'quernholt', '3'])).toMatchObject({
    code: 2,
    err: expect.stringContaining('visit of 2026-06-16; undo that first (`growdown undo harrowmere 2`)'),
  });
  expect(await growdown(there, ['undo', 'harrowmere'])).toMatchObject({ code: 0 });
  expect(await growdown(there, ['undo', 'harrowmere'])).toMatchObject({ code: 0, out: expect.stringContaining('move to harrowmere undone') }); // prettier-ignore
  expect(arrived()).toBe(false);
  expect(await growdown(there, undo)).toMatchObject({ code: 0, out: expect.stringContaining('visit of 2026-06-16 undone') }); // prettier-ignore
  expect(await growdown(there, ['check'])).toMatchObject({ code: 0 });
  for (const folder of [there, ready.folder]) rmSync(folder, { recursive: true });
});
