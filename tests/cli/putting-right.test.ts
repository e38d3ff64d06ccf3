import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { headOf, readLedger, shortHead } from '../../src/ledger/read-ledger.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const by = ['--by', 'Orla Venn'];
const why = ['--why', 'written on the wrong page', ...by];
const jpeg = (salt: number): Uint8Array => new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, salt]);
const cow = 'cases/quernholt/2086.md';
const other = 'cases/quernholt/2087.md';
const away = 'cases/harrowmere/11.md';

/** Two cows on one farm, one on another, all sealed on 16 June; a clock of its own, and the heads of both ledgers. */
async function kept(more: Readonly<Record<string, string | Uint8Array>> = {}) {
  const clock = { day: '2026-06-16' };
  const made = folderWith(
    {
      'cases/business.md': '---\nbusiness: Quillfen Foot Trimming\ntrimmer: Orla Venn\n---\n',
      'cases/quernholt/farm.md': farmFile,
      [cow]: animalFile('2086'),
      [other]: animalFile('2087').replace('2026-01-06', '2026-01-07'),
      'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
      [away]: animalFile('11').replace('2026-01-06', '2026-01-08'),
      'sole.jpg': jpeg(9),
      ...more,
    },
    { today: () => clock.day },
  );
  const text = (name = cow): string => readFileSync(join(made.folder, name), 'utf8');
  const ledger = (farm = 'quernholt') => readLedger(text(`cases/${farm}/.growdown/ledger.jsonl`));
  const run = async (...words: string[]) => {
    const done = await made.growdown(...words);
    expect(done, `${words.join(' ')}\n${done.err}${done.out}`).toMatchObject({ code: 0 });
    return done;
  };
  const errors = async (): Promise<string[]> => {
    const { out } = await made.growdown('check', '--json');
    const all = JSON.parse(out) as { readonly id: string; readonly severity: string; readonly message: string }[]; // prettier-ignore
    return all.filter(({ severity }) => severity === 'error').map(({ id, message }) => `${id}: ${message}`);
  };
  const heads = () =>
    ['quernholt', 'harrowmere'].map((farm) => [farm, shortHead(headOf(ledger(farm))!)] as const);
  /** Nothing is wrong, and heads printed before are still held by both chains. */
  const proven = async (before: ReturnType<typeof heads>) => {
    expect(await errors()).toEqual([]);
    for (const [farm, head] of before) {
      expect(ledger(farm).faults).toEqual([]);
      await run('check', '--farm', farm, '--head', head);
    }
  };
  const visit = (named: string, date: string, ...rest: string[]) =>
    run('visit', named, '--date', date, ...by, ...rest);
  await run('seal');
  return { ...made, clock, text, ledger, run, errors, heads, proven, visit };
}

const full = [
  '--found', 'a: open, top 21, top-found seen, wall 43, tool tape',
  '--products', 'product Footspray, on 2026-03-03, milk-days 0, meat-days 0',
  '--blocks', 'LH inner, fitted, on 2026-03-03',
  '--vet', 'asked 2026-03-03, why "swollen above"',
  '--recheck', '2026-04-01',
]; // prettier-ignore

describe('a visit on the wrong day', () => {
  test('goes to its place with all that bears its day: given, fitted, asked and answered, and its pictures', async () => {
    const { run, text, visit, folder, heads, proven, ledger, clock, growdown } = await kept();
    await visit('quernholt/2086', '2026-02-03', '--gait', '1');
    await visit('quernholt/2086', '2026-03-03', ...full);
    await run('photo', 'quernholt/2086', 'sole.jpg', '--foot', 'LH', '--view', 'sole');
    await visit('quernholt/2086', '2026-03-10', '--kind', 'report', '--vet-answer', 'to 2026-03-03, by Vet Hale, reply "seen"'); // prettier-ignore
    const before = heads();
    clock.day = '2026-06-18';
    const bare = await growdown('move-visit', 'quernholt/2086', '2026-03-03', '2026-02-01');
    expect(bare).toMatchObject({ code: 2, err: expect.stringContaining('give `--why` and `--by`') });
    await run('move-visit', 'quernholt/2086', '2026-03-03', '2026-02-01', ...why);
    expect(text().match(/- date: (\S+)/g)).toEqual(['- date: 2026-01-06', '- date: 2026-02-01', '- date: 2026-02-03', '- date: 2026-03-10']); // prettier-ignore
    expect(text()).not.toContain('2026-03-03');
    expect(text()).toMatch(/on: 2026-02-01[^]*on: 2026-02-01[^]*asked: 2026-02-01[^]*recheck: 2026-04-01/);
    expect(text()).toContain('to: 2026-02-01');
    expect(readdirSync(join(folder, 'cases/quernholt/photos'))).toEqual(['2086-2026-02-01-lh-sole.jpg']);
    await proven(before);
    // The chain tells what it said before and what it says now, each with its reason.
    const visits = ledger().entries.filter(({ kind, of }) => kind === 'visit' && of !== undefined);
    expect(visits.map(({ on, sealed }) => [on, sealed])).toEqual([
      ['2026-02-01', '2026-06-18'],
      ['2026-03-10', '2026-06-18'],
    ]);
    await run('undo', 'quernholt');
    expect(text()).toContain('- date: 2026-03-03');
    expect(readdirSync(join(folder, 'cases/quernholt/photos'))).toEqual(['2086-2026-03-03-lh-sole.jpg']);
    await proven(before);
  });

  test('is put right by correct too, and among the others of its day by its time', async () => {
    const { run, text, visit, proven, heads } = await kept();
    await visit('quernholt/2086', '2026-02-03', '--gait', '1', '--at', '09:00');
    await visit('quernholt/2086', '2026-02-03', '--kind', 'report', '--note', 'walks well', '--at', '15:00');
    const before = heads();
    await run('correct', 'quernholt/2086', 'visits.2.at', '16:30', '--why', 'misread', ...by);
    expect(text().match(/at: .*/g)).toEqual(['at: "15:00"', 'at: "16:30"'].map((one) => expect.stringContaining(one.slice(4, -1)))); // prettier-ignore
    await run('correct', 'quernholt/2086', 'visits.3.date', '2026-01-01', '--why', 'misread', ...by);
    expect(text().match(/- date: (\S+)/g)).toEqual(['- date: 2026-01-01', '- date: 2026-01-06', '- date: 2026-02-03']); // prettier-ignore
    await proven(before);
  });

  test('stays where what it plans or tells of would no longer fit', async () => {
    const { growdown, text, visit } = await kept();
    await visit('quernholt/2086', '2026-03-03', ...full);
    const before = text();
    const late = await growdown('move-visit', 'quernholt/2086', '2026-03-03', '2026-04-02', ...why);
    expect(late).toMatchObject({ code: 1, err: expect.stringContaining('recheck-before-visit') });
    const none = await growdown('move-visit', 'quernholt/2086', '2026-03-04', '2026-04-02', ...why);
    expect(none).toMatchObject({ code: 2, err: expect.stringContaining('no visit on 2026-03-04') });
    const typed = await growdown('move-visit', 'quernholt/2086', '2026-03-03', '2/3/2026', ...why);
    expect(typed).toMatchObject({ code: 2, err: expect.stringContaining('YYYY-MM-DD') });
    expect(text()).toBe(before);
  });
});

describe('a visit written down for the wrong cow', () => {
  test('goes to the other with its findings under her names, its picture and the vet’s answer', async () => {
    const { run, text, visit, folder, heads, proven, ledger, clock } = await kept({
      [other]: animalFile('2087')
        .replace('2026-01-06', '2026-01-07')
        .replace(/\ba: \{/g, 'w: {'),
    });
    await visit('quernholt/2086', '2026-03-03', ...full, '--lesions', 'b: DD, RH', '--found', 'b: M2');
    await run('photo', 'quernholt/2086', 'sole.jpg', '--foot', 'LH', '--view', 'sole');
    await visit('quernholt/2086', '2026-03-10', '--kind', 'report', '--vet-answer', 'to 2026-03-03, by Vet Hale, reply "seen"'); // prettier-ignore
    const [before, hers] = [heads(), text(other)];
    clock.day = '2026-06-18';
    await run('move-visit', 'quernholt/2086', '2026-03-03', '2087', ...why);
    expect(text()).not.toMatch(/2026-03|b: \{|Footspray/);
    expect(text(other)).toMatch(/b: \{ code: DD, foot: RH \}/);
    expect(text(other)).toMatch(/date: 2026-03-03[^]*w: \{ state: open, top: 21[^]*b: \{ stage: M2[^]*amended:[^]*written on the wrong page[^]*date: 2026-03-10/); // prettier-ignore
    expect(readdirSync(join(folder, 'cases/quernholt/photos'))).toEqual(['2087-2026-03-03-lh-sole.jpg']);
    const taken = ledger().entries.filter(({ kind }) => kind === 'withdrawn');
    expect(taken).toMatchObject([
      {
        animal: '2086',
        sealed: '2026-06-18',
        content: { by: 'Orla Venn', why: 'written on the wrong page' },
      },
    ]);
    // Two visits, a picture and a lesion declared for one of them.
    expect(taken[0]!.withdraws).toHaveLength(4);
    await proven(before);
    await run('undo', 'quernholt', '--why', 'hers after all', ...by);
    expect(text(other)).toBe(hers);
    await proven(before);
  });

  test('of another farm: both chains tell it, and neither farm’s files the other’s name', async () => {
    const { run, text, visit, folder, heads, proven, ledger, clock } = await kept();
    await visit('quernholt/2086', '2026-03-03', ...full);
    await run('photo', 'quernholt/2086', 'sole.jpg', '--foot', 'LH', '--view', 'sole');
    const before = heads();
    clock.day = '2026-06-18';
    await run('move-visit', 'quernholt/2086', '2026-03-03', 'harrowmere/11', '--why', 'of Harrowmere', ...by);
    expect(text()).not.toContain('2026-03-03');
    expect(text(away)).toMatch(/date: 2026-03-03[^]*amended:[^]*was written down in another record/);
    expect(readdirSync(join(folder, 'cases/quernholt/photos'))).toEqual([]);
    expect(readdirSync(join(folder, 'cases/harrowmere/photos'))).toEqual(['11-2026-03-03-lh-sole.jpg']);
    expect(ledger().entries.at(-1)).toMatchObject({ kind: 'withdrawn', content: { why: 'of Harrowmere' } });
    expect(ledger('harrowmere').entries.map(({ kind, sealed }) => `${kind} ${sealed}`).slice(-2)).toEqual(['visit 2026-06-18', 'picture 2026-06-18']); // prettier-ignore
    expect(`${text(away)}${JSON.stringify(ledger('harrowmere').entries)}`).not.toMatch(
      /quernholt|of Harrowmere/i,
    );
    await proven(before);
    await run('undo', 'harrowmere', '--why', 'a slip', ...by);
    expect(readdirSync(join(folder, 'cases/quernholt/photos'))).toEqual(['2086-2026-03-03-lh-sole.jpg']);
    expect(readdirSync(join(folder, 'cases/harrowmere/photos'))).toEqual([]);
    await proven(before);
  });

  test('is refused where a lesion has no place there, a score another meaning, or a sealed visit no reason', async () => {
    const us = farmFile.replace('Quernholt', 'Harrowmere').replace('uk-0-3', 'us-1-3');
    const { growdown, text, visit } = await kept({
      [other]: animalFile('2087').replace('2026-01-06', '2026-01-07').replace('claw: outer', 'claw: inner'),
      'cases/harrowmere/farm.md': us,
    });
    await visit('quernholt/2086', '2026-03-03', '--gait', '1', '--found', 'a: open, top 21, top-found seen, tool tape'); // prettier-ignore
    const before = text();
    const moved = (to: string, ...rest: string[]) =>
      growdown('move-visit', 'quernholt/2086', '2026-03-03', to, ...rest);
    expect(await moved('2087', ...why)).toMatchObject({ code: 2, err: expect.stringMatching(/tells of `a`.*growdown declare quernholt\/2087/) }); // prettier-ignore
    expect(await moved('harrowmere/11', ...why)).toMatchObject({ code: 2, err: expect.stringContaining('`gait` of the visit of 2026-03-03 is a score on another scale') }); // prettier-ignore
    expect(await moved('2086', ...why)).toMatchObject({ code: 2, err: expect.stringContaining('already') });
    expect(text()).toBe(before);
  });
});
