import { readdirSync, readFileSync, renameSync } from 'node:fs';
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
    // The chain shows what it said before and what it says now, each with its reason.
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

  test('stays where what it plans or reports would no longer fit', async () => {
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
    expect(text(away)).toMatch(/date: 2026-03-03[^]*amended:[^]*was recorded for another animal/);
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

  test('may be her only one: its lesion goes to the same place there, or with it under a free name, beside a picture both show', async () => {
    const { run, text, heads, proven, folder } = await kept({
      [other]: animalFile('2087').replace('2026-01-06', '2026-01-07').replace('claw: outer', 'claw: inner'),
    });
    await run('photo', 'quernholt/2086', 'sole.jpg', '--foot', 'LH', '--view', 'sole');
    await run(
      'visit',
      'quernholt/2086',
      '--date',
      '2026-02-03',
      ...by,
      '--kind',
      'report',
      '--note',
      'as before',
    );
    await run('correct', 'quernholt/2086', '2026-02-03.photos.1', 'file photos/2086-2026-01-06-lh-sole.jpg, foot LH', ...why); // prettier-ignore
    const before = heads();
    await run('move-visit', 'quernholt/2086', '2026-01-06', '2087', ...why, '--even-so');
    expect(text()).toMatch(/lesions:\s+\{\}\s+visits:\n +- date: 2026-02-03/);
    expect(text(other)).toMatch(/b: \{ code: WL, foot: LH, claw: outer/);
    expect(text(other)).toMatch(/date: 2026-01-06[^]*b: \{ state: open, top: 17[^]*date: 2026-01-07/);
    expect(readdirSync(join(folder, 'cases/quernholt/photos')).toSorted()).toEqual(['2086-2026-01-06-lh-sole.jpg', '2087-2026-01-06-lh-sole.jpg']); // prettier-ignore
    await proven(before);
    await run('move-visit', 'quernholt/2086', '2026-02-03', 'harrowmere/11', ...why, '--even-so');
    expect(text()).toMatch(/visits:\s+\[\]/);
    expect(readdirSync(join(folder, 'cases/harrowmere/photos'))).toHaveLength(1);
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
    expect(await moved('2087', ...why)).toMatchObject({ code: 2, err: expect.stringMatching(/records `a`.*growdown declare quernholt\/2087/) }); // prettier-ignore
    expect(await moved('harrowmere/11', ...why)).toMatchObject({ code: 2, err: expect.stringContaining('`gait` of the visit of 2026-03-03 is a score on another scale') }); // prettier-ignore
    expect(await moved('2086', ...why)).toMatchObject({ code: 2, err: expect.stringContaining('already') });
    expect(text()).toBe(before);
  });
});

describe('correct', () => {
  test('takes out a value, an entry of a list and the last of a group; a whole visit is in the ledger alone', async () => {
    const { run, text, visit, heads, proven, ledger, growdown } = await kept();
    await visit('quernholt/2086', '2026-03-03', ...full, '--trimmed', 'LH, RH', '--weight', '650');
    const before = heads();
    const out = (...where: string[]) =>
      run('correct', 'quernholt/2086', ...where.flatMap((one) => ['--take-out', one]), ...why);
    await out('2026-03-03.weight', '2026-03-03.trimmed.1', '2026-03-03.found.a', '2026-03-03.blocks');
    expect(text()).not.toMatch(/weight|top: 21|blocks/);
    expect(text()).toMatch(/trimmed: \[RH\]/);
    expect(ledger().entries.at(-1)).toMatchObject({ kind: 'visit', content: { trimmed: ['RH'] } });
    await proven(before);
    const bare = await growdown('correct', 'quernholt/2086', '--take-out', '2026-03-03');
    expect(bare).toMatchObject({ code: 2, err: expect.stringContaining('give `--why` and `--by`') });
    await out('2026-03-03');
    expect(text()).not.toContain('2026-03-03');
    expect(ledger().entries.at(-1)).toMatchObject({ kind: 'withdrawn', content: { by: 'Orla Venn', why: 'written on the wrong page' } }); // prettier-ignore
    await proven(before);
    await out('2026-01-06', 'lesions.a');
    expect(text()).toMatch(/lesions:\s+\{\}[^]*visits:\s+\[\]/);
    await proven(before);
  });

  test('puts in what has no group yet and what goes behind a list, and counts by their score', async () => {
    const { run, text, heads, proven } = await kept();
    const before = heads();
    await run('correct', 'quernholt/2086', '2026-01-06.products.1', 'product Footspray, milk-days 0, meat-days 0', '2026-01-06.products.2', 'product Bluecoat, milk-days 0, meat-days 0', '2026-01-06.vet.asked', '2026-01-06', '2026-01-06.vet.why', 'swollen', ...why); // prettier-ignore
    expect(text()).toMatch(
      /product: "?Footspray[^]*product: "?Bluecoat[^]*vet: \{ asked: 2026-01-06, why: "?swollen/,
    );
    await run(
      'correct',
      'quernholt/2086',
      'episodes.1.lame-since',
      '2026-01-01',
      'episodes.1.told-by',
      'Nan',
    );
    expect(text()).toMatch(/episodes:\n +- \{ lame-since: 2026-01-01, told-by: "?Nan/);
    await run('gait-round', 'quernholt', '--date', '2026-02-02', '--counts', '0: 130, 1: 51', '--scored', '181'); // prettier-ignore
    await run('correct', 'quernholt', 'gait-rounds.1.counts.1', '52', 'gait-rounds.1.scored', '182', ...why);
    expect(text('cases/quernholt/farm.md')).toMatch(/scored: 182\s+counts: \{ 0: 130, 1: 52 \}/);
    await proven(before);
  });

  test('changes together what is wrong halfway, and leaves all as it was where it is wrong at the end', async () => {
    const { run, text, heads, proven, growdown } = await kept();
    const [before, was] = [heads(), text()];
    const dd = ['lesions.a.code', 'DD', '2026-01-06.found.a.stage', 'M2'];
    const out = ['state', 'top', 'top-found', 'wall', 'tool'].flatMap((key) => ['--take-out', `2026-01-06.found.a.${key}`]); // prettier-ignore
    out.push('--take-out', 'lesions.a.line');
    const half = await growdown('correct', 'quernholt/2086', ...dd, ...why);
    expect(half).toMatchObject({ code: 1, err: expect.stringContaining('nothing was written') });
    expect(text()).toBe(was);
    await run('correct', 'quernholt/2086', ...dd, ...out, ...why);
    expect(text()).toMatch(/code: DD[^]*a: \{ stage: M2 \}/);
    await proven(before);
  });

  test('of a farm and of the business, by the checks of reading; a scale may come with its day, a sealed one changes only with a reason', async () => {
    const { run, text, growdown, heads, proven, ledger } = await kept();
    const before = heads();
    const farm = 'cases/quernholt/farm.md';
    await run('correct', 'quernholt', 'farm', 'Quernholt Hall', 'vet.phone', '01632 960111', 'contact.email', 'nan@quernholt.example', 'language', 'en-US', 'herd.cows', '215'); // prettier-ignore
    expect(text(farm)).toMatch(/farm: "?Quernholt Hall[^]*contact:[^]*nan@quernholt.example[^]*01632 960111[^]*cows: 215[^]*language: en-US/); // prettier-ignore
    await run('correct', 'quernholt', 'gait-scale.2', 'from 2026-05-01, scale us-1-3');
    expect(text(farm)).toMatch(/gait-scale: \[\{ scale: uk-0-3 \}, \{ from: 2026-05-01, scale: us-1-3 \}\]/);
    expect(ledger().entries.at(-1)).toMatchObject({ kind: 'scales', of: 1 });
    const bare = await growdown('correct', 'quernholt', 'gait-scale.1.scale', 'nz-0-3');
    expect(bare).toMatchObject({ code: 2, err: expect.stringContaining('is sealed, expected a reason') });
    expect(
      await growdown('correct', 'quernholt', 'gait-scale.3', 'from 2026-04-01, scale uk-0-3'),
    ).toMatchObject({ code: 1, err: expect.stringContaining('gait-scale-out-of-order') });
    expect(await growdown('correct', 'quernholt', 'herd.cows', 'many')).toMatchObject({ code: 2 });
    await run('correct', 'business', 'phone', '01632 960222', 'people.1', 'name Orla Venn, training Diploma');
    expect(text('cases/business.md')).toMatch(/trimmer: Orla Venn\npeople:\n +- \{ name: Orla Venn, training: "?Diploma"? \}\nphone: "01632 960222"/); // prettier-ignore
    expect(await growdown('correct', 'business', 'phone', '1', ...why)).toMatchObject({ code: 2, err: expect.stringContaining('keeps no reason') }); // prettier-ignore
    expect(await growdown('business', '--phone', '1')).toMatchObject({ code: 2, err: expect.stringContaining('growdown correct business KEY VALUE') }); // prettier-ignore
    await proven(before);
  });

  test.each([
    ['the version', ['casefile', '2'], /`growdown upgrade` alone/],
    ['a correction', ['2026-01-06.amended.1.why', 'x'], /corrections stay as they were made/],
    ['all visits at once', ['--take-out', 'visits'], /one of them, as in visits\.1/],
    ['no value', ['2026-01-06.gait'], /comes without a value.*--take-out 2026-01-06\.gait/],
    ['nothing at all', [], /nothing is given to put right/],
    ['an unknown key', ['--take-out', '2026-01-06.gaitt'], /did you mean `gait`/],
    ['nothing there', ['--take-out', '2026-01-06.weight'], /not recorded/],
    ['an entry beyond the next', ['2026-01-06.trimmed.3', 'LH'], /one more than it has/],
  ])('refuses %s with what to do instead', async (_, words, said) => {
    const { text, growdown } = await kept();
    const before = text();
    const done = await growdown('correct', 'quernholt/2086', ...words, ...why);
    expect(done.code).toBe(2);
    expect(done.err).toMatch(said);
    expect(text()).toBe(before);
  });
});

describe('undo', () => {
  test('lists what can be taken back; takes one further back, or names what depends on it', async () => {
    const { run, text, visit, growdown, heads, proven, clock } = await kept();
    const untouched = text();
    await visit('quernholt/2086', '2026-02-03', '--gait', '1');
    await visit('quernholt/2087', '2026-02-03', '--gait', '1');
    await visit('quernholt/2086', '2026-03-03', '--gait', '1');
    const before = heads();
    const list = await run('undo');
    expect(list.out).toBe(
      [
        'quernholt 3: visit of 2026-03-03, 2026-06-16; quernholt/2086.md',
        'quernholt 2: visit of 2026-02-03, 2026-06-16; quernholt/2087.md',
        'quernholt 1: visit of 2026-02-03, 2026-06-16; quernholt/2086.md',
        '  only after quernholt 3',
        '',
      ].join('\n'),
    );
    const rests = await growdown('undo', 'quernholt', '1');
    expect(rests).toMatchObject({ code: 2, err: expect.stringMatching(/2086\.md was written again.*visit of 2026-03-03; undo that first \(`growdown undo quernholt 3`\)/) }); // prettier-ignore
    expect(await growdown('undo', 'quernholt', '9')).toMatchObject({ code: 2, err: expect.stringContaining('no entry 9') }); // prettier-ignore
    expect(await growdown('undo', 'quernholt', 'x')).toMatchObject({ code: 2, err: expect.stringContaining('as `growdown undo` lists it') }); // prettier-ignore
    await run('undo', 'quernholt', '2');
    expect(text(other)).not.toContain('2026-02-03');
    clock.day = '2026-06-17';
    expect(await growdown('undo', 'quernholt', '3')).toMatchObject({ code: 2, err: expect.stringContaining('--why') }); // prettier-ignore
    await run('undo', 'quernholt', '3', ...why);
    await run('undo', 'quernholt', '1', ...why);
    expect(text()).toBe(untouched);
    expect((await run('undo', '--json')).out).toBe('{\n  "entries": []\n}\n');
    await proven(before);
  });

  test('an entry another file depends on by its records is refused with their place, and 20 are remembered', async () => {
    const { run, text, visit, growdown, folder } = await kept();
    await run('correct', 'quernholt', 'condition-scale', 'uk-1-5');
    await visit('quernholt/2086', '2026-02-03', '--condition', '2.75');
    const rests = await growdown('undo', 'quernholt', '1');
    expect(rests).toMatchObject({ code: 1, err: expect.stringMatching(/2086\.md:\d+:\d+: error record\/condition-without-scale/) }); // prettier-ignore
    expect(text('cases/quernholt/farm.md')).toContain('condition-scale');
    for (let n = 1; n <= 20; n += 1) await run('correct', 'quernholt/2087', 'handling', `quiet ${n}`);
    expect(readdirSync(join(folder, 'cases/quernholt/.growdown/undo'))).toHaveLength(20);
    expect(await growdown('undo', 'quernholt', '1')).toMatchObject({ code: 2, err: expect.stringContaining('no entry 1') }); // prettier-ignore
    await run('undo', 'quernholt');
    expect(text(other)).toContain('quiet 19');
  });

  test('the one memory kept before there were several is still taken back', async () => {
    const { run, text, visit, folder } = await kept();
    const before = text();
    await visit('quernholt/2086', '2026-02-03', '--gait', '1');
    const at = join(folder, 'cases/quernholt/.growdown');
    renameSync(join(at, 'undo/1.json'), join(at, 'undo.json'));
    await visit('quernholt/2087', '2026-02-03', '--gait', '1');
    expect((await run('undo')).out).toMatch(/quernholt 1: .*2087\.md\nquernholt 0: .*2086\.md/);
    await run('undo', 'quernholt', '0');
    expect(text()).toBe(before);
  });
});

test('a slip put right the day it was sealed is in the ledger and the audit pack, not in the book; one of a later day is in all', async () => {
  const { run, text, visit, ledger, clock, heads, proven } = await kept();
  await visit('quernholt/2086', '2026-02-03', '--gait', '1');
  const before = heads();
  const corrected = (where: string, value: string, reason: string) =>
    run('correct', 'quernholt/2086', where, value, '--why', reason, ...by);
  await corrected('2026-02-03.gait', '2', 'slip of the thumb');
  await corrected('lesions.a.claw', 'inner', 'slip of the claw');
  await visit('quernholt/2086', '2026-03-03', '--gait', '1');
  await run('undo', 'quernholt', '--why', 'slip of the day', ...by);
  await visit('quernholt/2086', '2026-03-04', '--gait', '1');
  await run('move-visit', 'quernholt/2086', '2026-03-04', '2087', '--why', 'slip of the page', ...by);
  /** The book, its annex and the pages of its cows; and the list of corrections of the pack. */
  const printed = async () => {
    await run('books', '--annex', '--farm', 'quernholt');
    await run('audit', '--farm', 'quernholt', '--period', '2026');
    const book = ['quernholt', 'quernholt-annex'].map((name) => text(`books/${name}.html`)).join('\n');
    return { book, pack: text('audits/quernholt-2026/amendments.csv') };
  };
  const slips = ['thumb', 'claw', 'day', 'page'].map((one) => `slip of the ${one}`);
  const { book, pack } = await printed();
  for (const slip of slips) {
    expect(book).not.toContain(slip);
    expect(pack).toContain(slip);
    expect(JSON.stringify(ledger().entries)).toContain(slip);
  }
  clock.day = '2026-06-17';
  await corrected('2026-02-03.gait', '3', 'looked at the film');
  await run('correct', 'quernholt/2086', '--take-out', '2026-01-06', '--why', 'never made', ...by);
  const later = await printed();
  for (const slip of slips) expect(later.book).not.toContain(slip);
  for (const reason of ['looked at the film', 'never made']) {
    expect(later.book).toContain(reason);
    expect(later.pack).toContain(reason);
  }
  await proven(before);
});

test('what is corrected by hand before it was ever sealed is reported as it always was', async () => {
  const { run, text, put } = await kept();
  const own = animalFile('2088').replace('gait: 2\n', 'gait: 2\n    amended: [{ date: 2026-06-16, by: Orla Venn, why: "by hand" }]\n'); // prettier-ignore
  put('cases/quernholt/2088.md', own);
  await run('seal');
  await run('books', '--annex', '--farm', 'quernholt');
  expect(text('books/quernholt-annex.html')).toContain('by hand');
});

test('no new way excuses what was touched up in silence: moved, taken out or undone beside it, it is still reported', async () => {
  const { run, text, visit, put, errors, growdown, heads, ledger } = await kept();
  await visit('quernholt/2086', '2026-02-03', '--gait', '1');
  await visit('quernholt/2086', '2026-03-03', '--gait', '1');
  const [head] = heads();
  const touched = () => put(cow, text().replace('top: 17', 'top: 7'));
  touched();
  const ids = async () => (await errors()).map((one) => one.slice(0, one.indexOf(':')));
  await run('move-visit', 'quernholt/2086', '2026-03-03', '2087', ...why);
  expect(await ids()).toEqual(['seal/differs']);
  await run('correct', 'quernholt/2086', '--take-out', '2026-02-03', ...why);
  expect(await ids()).toEqual(['seal/differs']);
  await run('undo', 'quernholt', ...why);
  expect(await ids()).toEqual(['seal/differs']);
  // The very visit that was touched up: where it goes it is new, where it was it is missing.
  await run('move-visit', 'quernholt/2086', '2026-01-06', '2087', ...why, '--even-so');
  expect(await ids()).toEqual(['seal/missing']);
  expect(JSON.stringify(ledger().entries)).toContain('"top":17');
  await run('undo', 'quernholt', ...why);
  await run('correct', 'quernholt/2086', '--take-out', '2026-01-06', ...why);
  expect(await ids()).toEqual(['seal/missing']);
  const checked = async (held: string) =>
    (await growdown('check', '--farm', 'quernholt', '--head', held)).err;
  expect(await checked(head![1])).not.toContain('ledger/head-unknown');
  expect(await checked('0123 4567 89ab cdef')).toContain('ledger/head-unknown');
});
