import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { localToday } from '../../src/cli/node-disk.js';
import { headOf, shortHead, readLedger } from '../../src/ledger/read-ledger.js';
import { sealedRecords } from '../../src/ledger/sealed-records.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const cow = 'cases/quernholt/2086.md';
const chain = 'cases/quernholt/.growdown/ledger.jsonl';
const files = { 'cases/quernholt/farm.md': farmFile, [cow]: animalFile('2086') };
const by = ['--by', 'Orla Venn'];
const recheck = ['visit', 'quernholt/2086', '--date', '2026-02-03', ...by, '--gait', '1'];

/** A folder with a clock of its own. */
function kept(more: Readonly<Record<string, string | Uint8Array>> = {}) {
  const clock = { day: '2026-06-16' };
  const made = folderWith({ ...files, ...more }, { today: () => clock.day });
  const text = (name = cow): string => readFileSync(join(made.folder, name), 'utf8');
  const ledger = () => readLedger(existsSync(join(made.folder, chain)) ? text(chain) : '');
  const edit = (from: string | RegExp, to: string, name = cow): void => {
    const after = text(name).replace(from, to);
    expect(after).not.toBe(text(name));
    writeFileSync(join(made.folder, name), after);
  };
  const run = async (...words: string[]) => {
    const done = await made.growdown(...words);
    expect(done, words.join(' ')).toMatchObject({ code: 0 });
    return done;
  };
  /** What is wrong, but for gaps in the record. */
  const wrong = async (): Promise<string[]> => {
    const { out } = await made.growdown('check', '--json');
    const all = JSON.parse(out) as { readonly id: string; readonly severity: string }[];
    return all
      .filter(({ severity, id }) => severity === 'error' && !id.startsWith('gap/'))
      .map(({ id }) => id);
  };
  return { ...made, clock, text, ledger, edit, run, wrong };
}

const kinds = ({ entries }: ReturnType<typeof readLedger>): string[] => entries.map(({ kind }) => kind);

test('what was written by hand is sealed once; the second time nothing is new and no byte changes', async () => {
  const { growdown, ledger, text } = kept();
  expect(ledger().entries).toEqual([]);
  const dry = await growdown('seal', '--dry-run');
  expect(dry.out).toContain('quernholt: 4 entries would be sealed');
  expect(ledger().entries).toEqual([]);
  const first = await growdown('seal');
  const head = headOf(ledger())!;
  expect(first).toMatchObject({ code: 0, err: '' });
  expect(first.out).toBe(
    `quernholt: 4 entries sealed; the ledger ends with entry 4, ${shortHead(head)}\n  the scales\n  2086: her identity\n  2086: lesion \`a\`\n  2086: the visit of 2026-01-06\n`,
  );
  expect(kinds(ledger())).toEqual(['scales', 'identity', 'lesion', 'visit']);
  const bytes = text(chain);
  expect((await growdown('seal')).out).toBe(
    `quernholt: nothing new to seal; the ledger ends with entry 4, ${shortHead(head)}\n`,
  );
  expect(text(chain)).toBe(bytes);
  expect(JSON.parse((await growdown('seal', '--json')).out)).toMatchObject({
    farms: [{ farm: 'quernholt', sealed: [], head }],
    problems: [],
  });
});

test('a visit is sealed by the command that writes it, on the machine’s day whatever day is worked as on', async () => {
  const { run, ledger, clock, wrong } = kept();
  clock.day = '2026-02-20';
  const said = JSON.parse((await run(...recheck, '--today', '2026-02-04', '--json')).out) as unknown;
  expect(said).toMatchObject({
    written: true,
    sealed: [{ farm: 'quernholt', entries: 5, head: headOf(ledger()) }],
  });
  const visits = ledger().entries.filter(({ kind }) => kind === 'visit');
  expect(visits.map(({ on, sealed }) => [on, sealed])).toEqual([
    ['2026-01-06', '2026-02-20'],
    ['2026-02-03', '2026-02-20'],
  ]);
  const numbers = new Map(ledger().entries.map(({ number, kind }) => [number, kind]));
  expect(visits[0]!.names?.map((number) => numbers.get(number))).toEqual(['scales', 'identity', 'lesion']);
  expect(await wrong()).toEqual([]);
});

test('a file beside it that is half written by hand is left to growdown seal', async () => {
  const { run, put, ledger } = kept();
  put('cases/quernholt/2087.md', animalFile('2087'));
  await run(...recheck);
  expect(new Set(ledger().entries.flatMap(({ animal }) => animal ?? []))).toEqual(new Set(['2086']));
  await run('seal');
  expect(new Set(ledger().entries.flatMap(({ animal }) => animal ?? []))).toEqual(new Set(['2086', '2087']));
});

test('layout, comments, the order of keys, quotes and line ends are free', async () => {
  const { run, edit, text, wrong, ledger, folder } = kept();
  await run(...recheck);
  edit('casefile: 1\nanimal: "2086"\n', '# hers\nanimal: 2086\ncasefile:   1\n');
  edit('kind: first\n    gait: 2\n', 'gait:   2.0\n    kind: "first"\n');
  edit('top: 17, top-found: seen', '"top-found": seen, top: 17.00');
  writeFileSync(join(folder, cow), text().replaceAll('\n', '\r\n'));
  writeFileSync(join(folder, chain), `\ufeff${text(chain).replaceAll('\n', '\r\n')}`);
  expect(await wrong()).toEqual([]);
  const before = ledger().entries.length;
  await run('seal');
  expect(ledger().entries).toHaveLength(before);
});

test('a value changed in silence is an error with its place, and no book is made of it', async () => {
  const { run, growdown, edit, folder } = kept();
  await run('seal');
  edit('top: 17', 'top: 27');
  const done = await growdown('books');
  expect(done.code).toBe(1);
  expect(done.err).toMatch(
    /^cases\/quernholt\/2086\.md:\d+:\d+: error seal\/differs: found\.a\.top of the visit of 2026-01-06 is 27, expected 17 as sealed on 2026-06-16 /,
  );
  expect(existsSync(join(folder, 'books/quernholt.html'))).toBe(false);
});

test('corrected in the open: by command with a reason, or by hand under amended; the chain keeps both', async () => {
  const { run, growdown, edit, ledger, wrong, clock, text } = kept();
  await run('seal');
  const at = 'quernholt/2086 2026-01-06.found.a.top 27'.split(' ');
  expect(await growdown('correct', ...at)).toMatchObject({
    code: 2,
    err: expect.stringContaining('is sealed, expected a reason'),
  });
  clock.day = '2026-06-18';
  await run('correct', ...at, '--why', 'misread', ...by);
  expect(await wrong()).toEqual([]);
  const visit = sealedRecords(ledger()).find(({ first }) => first.kind === 'visit')!;
  expect(
    visit.standing.map(({ content, sealed }) => [(content['found'] as { a: { top: number } }).a.top, sealed]),
  ).toEqual([
    [17, '2026-06-16'],
    [27, '2026-06-18'],
  ]);
  edit('gait: 2', 'gait: 3');
  expect(await wrong()).toEqual(['seal/differs']);
  edit(/(\n +)(- \{ date: 2026-06-18.*)/, '$1$2$1- { date: 2026-06-18, by: Orla Venn, why: "scored again" }');
  expect(await wrong()).toEqual([]);
  await run('seal');
  expect(sealedRecords(ledger()).find(({ first }) => first.kind === 'visit')!.standing).toHaveLength(3);
  edit(/\n +- \{ date: 2026-06-18, by: Orla Venn, why: "scored again" \}/, '');
  edit('gait: 3', 'gait: 2');
  expect(await wrong()).toEqual(['seal/differs']);
  expect(text()).toContain('amended');
});

test('a lesion’s declaration is caught too, and corrected beside it', async () => {
  const { run, edit, wrong, growdown, ledger } = kept();
  await run(...recheck);
  edit('claw: outer', 'claw: inner');
  expect(await wrong()).toEqual(['seal/differs']);
  edit('claw: inner', 'claw: outer');
  expect(await wrong()).toEqual([]);
  await run('correct', 'quernholt/2086', 'lesions.a.claw', 'inner', '--why', 'wrong claw written', ...by);
  expect(await wrong()).toEqual([]);
  expect(ledger().entries.filter(({ kind }) => kind === 'lesion')).toHaveLength(2);
  expect((await growdown('correct', 'quernholt', 'next-visit', '2026-07-01')).code).toBe(0);
});

test('what grows by and by is sealed anew and is no error: an end, a calving, a number filled in, a late visit', async () => {
  const { run, edit, wrong, ledger } = kept();
  await run(...recheck);
  await run('close', 'quernholt/2086', '--result', 'sold', '--ended', '2026-03-01');
  edit(
    'calvings: [2023-09-30, 2024-10-19]',
    'tag: UK 000123 402086\ncalvings: [2022-10-01, 2023-09-30, 2024-10-19, 2026-05-30]\nhandling: quiet',
  );
  await run(
    'visit',
    'quernholt/2086',
    '--date',
    '2026-01-20',
    ...by,
    '--kind',
    'report',
    '--note',
    'walks well',
    '--even-so',
  );
  edit('handling: quiet', 'handling: kicks left');
  expect(await wrong()).toEqual([]);
  const identity = sealedRecords(ledger()).find(({ first }) => first.kind === 'identity')!;
  expect(identity.standing).toHaveLength(2);
  edit('result: sold', 'result: culled');
  expect(await wrong()).toEqual(['seal/differs']);
  edit('result: culled', 'result: sold');
  edit('2024-10-19', '2024-10-20');
  expect(await wrong()).toEqual(['seal/differs']);
});

test('the last entry is taken back the same day openly, later with a reason; the chain shows both', async () => {
  const { run, growdown, ledger, wrong, clock, text } = kept();
  await run('seal');
  const before = text();
  await run(...recheck);
  await run('undo', 'quernholt', ...by);
  expect(text()).toBe(before);
  expect(ledger().entries.at(-1)).toMatchObject({
    kind: 'withdrawn',
    animal: '2086',
    content: { by: 'Orla Venn', what: 'visit of 2026-02-03 undone' },
  });
  expect(await wrong()).toEqual([]);
  await run('correct', 'quernholt/2086', '2026-01-06.gait', '3', '--why', 'misheard', ...by);
  clock.day = '2026-06-17';
  expect(await growdown('undo', 'quernholt')).toMatchObject({
    code: 2,
    err: expect.stringContaining('--why'),
  });
  await run('undo', 'quernholt', '--why', 'it was 2 after all', ...by);
  expect(text()).toBe(before);
  expect(await wrong()).toEqual([]);
  const visit = sealedRecords(ledger()).find(({ last }) => last?.kind === 'visit')!;
  expect(visit.last).toBe(visit.first);
  await run('seal');
  expect(ledger().entries.at(-1)!.kind).toBe('withdrawn');
});

test('taking one entry back does not excuse another change', async () => {
  const { run, put, edit, wrong } = kept();
  put('cases/quernholt/2087.md', animalFile('2087'));
  await run('seal');
  edit('top: 17', 'top: 7', 'cases/quernholt/2087.md');
  await run(...recheck);
  await run('undo', 'quernholt');
  expect(await wrong()).toEqual(['seal/differs']);
});

test('a new number, a new file name and a move leave every seal whole', async () => {
  const { run, put, wrong, folder, text, ledger } = kept({
    'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  });
  await run(...recheck);
  await run('renumber', 'quernholt/2086', '3001', '--until', '2026-03-01');
  expect(await wrong()).toEqual([]);
  put('cases/quernholt/2086.md', animalFile('2086').replace('2026-01-06', '2026-06-01'));
  await run('seal');
  expect(await wrong()).toEqual([]);
  expect([...new Set(ledger().entries.flatMap(({ animal }) => animal ?? []))]).toEqual(['2086', '2086~2']);
  writeFileSync(join(folder, 'cases/quernholt/cow-3001.md'), text('cases/quernholt/3001.md'));
  rmSync(join(folder, 'cases/quernholt/3001.md'));
  expect(await wrong()).toEqual([]);
  await run('move', 'quernholt/cow-3001', 'harrowmere/77', '--on', '2026-06-10');
  expect(await wrong()).toEqual([]);
  const there = readLedger(text('cases/harrowmere/.growdown/ledger.jsonl'));
  expect(kinds(there)).toEqual(['scales', 'identity', 'lesion']);
  expect(JSON.stringify(there)).not.toContain('Orla Venn');
  await run('undo', 'quernholt');
  expect(await wrong()).toEqual([]);
});

test('a new number is taken back: she is the one she was', async () => {
  const { run, wrong, ledger } = kept();
  await run(...recheck);
  await run('renumber', 'quernholt/2086', '3001');
  await run('undo', 'quernholt');
  expect(await wrong()).toEqual([]);
  await run('seal');
  expect(new Set(ledger().entries.flatMap(({ animal }) => animal ?? []))).toEqual(new Set(['2086']));
});

test('a file or visit that is gone is an error until it is said in the open that it was taken out', async () => {
  const { run, growdown, put, folder, edit, wrong, ledger } = kept();
  put('cases/quernholt/2087.md', animalFile('2087'));
  await run(...recheck);
  await run('seal');
  rmSync(join(folder, 'cases/quernholt/2087.md'));
  edit(/ {2}- date: 2026-02-03[^]*?\n(?=---)/, '');
  expect((await wrong()).toSorted()).toEqual(['seal/animal-missing', 'seal/missing']);
  expect((await growdown('seal', '--taken-out', 'quernholt/2087')).code).toBe(2);
  const why = ['--why', 'kept five years', ...by];
  const done = await growdown('seal', '--taken-out', 'quernholt/2087', ...why);
  expect(done.out).toContain('2087: seals withdrawn');
  expect(await wrong()).toEqual(['seal/missing']);
  await run('seal', '--taken-out', 'quernholt/2086', ...why);
  expect(await wrong()).toEqual([]);
  expect(ledger().entries.filter(({ kind }) => kind === 'withdrawn')).toHaveLength(2);
  expect(await growdown('seal', '--taken-out', 'quernholt/2086', ...why)).toMatchObject({
    code: 2,
    err: expect.stringContaining('nothing sealed is missing'),
  });
});

test('what was changed is not excused as taken out', async () => {
  const { run, growdown, edit, wrong } = kept();
  await run('seal');
  edit('top: 17', 'top: 7');
  expect((await growdown('seal', '--taken-out', 'quernholt/2086', '--why', 'x', ...by)).code).toBe(2);
  expect(await wrong()).toEqual(['seal/differs']);
});

test('the machine dies between replacing and sealing: the next writing or growdown seal seals it', async () => {
  const { run, ledger, wrong, folder, text } = kept();
  await run('seal');
  const before = text(chain);
  await run(...recheck);
  writeFileSync(join(folder, chain), before);
  expect(await wrong()).toEqual([]);
  await run('visit', 'quernholt/2086', '--date', '2026-03-03', ...by, '--gait', '1');
  expect(
    ledger()
      .entries.filter(({ kind }) => kind === 'visit')
      .map(({ on }) => on),
  ).toEqual(['2026-01-06', '2026-02-03', '2026-03-03']);
});

test('behind a broken chain nothing is written, by no command, and the way out is said', async () => {
  const { growdown, put, text, folder } = kept();
  const before = text();
  put('cases/quernholt/.growdown/ledger.jsonl', '{"ledger":1,\n');
  for (const words of [recheck, ['seal'], ['correct', 'quernholt/2086', '2026-01-06.gait', '1']]) {
    const done = await growdown(...words);
    expect(done.code).toBe(1);
    expect(done.err).toContain('cases/quernholt/.growdown/ledger.jsonl:1');
    expect(done.err).toContain('without one, move it away: a new chain then begins');
  }
  expect(text()).toBe(before);
  expect(readFileSync(join(folder, chain), 'utf8')).toBe('{"ledger":1,\n');
  rmSync(join(folder, chain));
  expect((await growdown(...recheck)).code).toBe(0);
});

test('a machine’s clock centuries ahead is refused before a line is sealed that no reader takes', async () => {
  const late = kept();
  late.clock.day = '2526-06-16';
  const done = await late.growdown(...recheck, '--today', '2026-06-16');
  expect(done).toMatchObject({
    code: 2,
    err: expect.stringContaining("computer's clock says 2526-06-16"),
  });
  expect(late.text()).not.toContain('2026-02-03');
  expect(existsSync(join(late.folder, chain))).toBe(false);
});

test('a day by the clock that no file may hold is none', () => {
  expect(localToday(new Date(2026, 5, 16, 23))).toBe('2026-06-16');
  for (const year of [2526, 12026]) expect(() => localToday(new Date(year, 5, 16))).toThrow('Set the clock');
});

const jpeg = (last: number): Uint8Array => Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, last]);

test('a picture is sealed by its bytes: put in later it is no change, changed or gone it is', async () => {
  const { run, put, wrong, ledger, folder, text, edit } = kept();
  await run(...recheck);
  put('from-phone.jpg', jpeg(4));
  await run('photo', 'quernholt/2086', join(folder, 'from-phone.jpg'), '--foot', 'LH', '--view', 'sole');
  expect(kinds(ledger()).at(-1)).toBe('picture');
  expect(ledger().entries.at(-1)!.content['sha512']).toMatch(/^[0-9a-f]{128}$/);
  expect(await wrong()).toEqual([]);
  const picture = join(folder, 'cases/quernholt', /photos\/[^ ,}"]+/.exec(text())![0]);
  writeFileSync(picture, jpeg(5));
  expect(await wrong()).toEqual(['seal/picture-differs']);
  rmSync(picture);
  expect(await wrong()).toEqual(['seal/picture-missing']);
  writeFileSync(join(folder, 'cases/quernholt/photos/another-name.jpg'), jpeg(4));
  edit(/photos\/[^ ,}"]+/, 'photos/another-name.jpg');
  expect(await wrong()).toEqual([]);
  edit(/\n {4}photos:[^]*?(?=\n---)/, '');
  expect(await wrong()).toEqual(['seal/missing']);
  edit(
    /\n---\n\nInvented/,
    '\n    amended: [{ date: 2026-06-16, by: Orla Venn, why: "another cow’s foot" }]\n---\n\nInvented',
  );
  expect(await wrong()).toEqual([]);
  await run('seal');
  expect(kinds(ledger()).slice(-2)).toEqual(['visit', 'withdrawn']);
  expect(await wrong()).toEqual([]);
});

test('a cut tail and a chain written anew are caught by the head a book printed', async () => {
  const { run, growdown, text, folder, ledger, edit } = kept();
  await run(...recheck);
  const head = shortHead(headOf(ledger())!);
  expect((await growdown('check', '--farm', 'quernholt', '--head', head)).err).not.toContain('head');
  writeFileSync(join(folder, chain), text(chain).split('\n').slice(0, -2).join('\n'));
  const cut = await growdown('check', '--farm', 'quernholt', '--head', head);
  expect(cut).toMatchObject({ code: 1, err: expect.stringContaining('ledger/head-unknown') });
  rmSync(join(folder, chain));
  edit('top: 17', 'top: 7');
  await run('seal');
  expect((await growdown('check', '--farm', 'quernholt', '--head', head)).err).toContain(
    'ledger/head-unknown',
  );
  expect((await growdown('check', '--head', 'no head')).code).toBe(2);
});
