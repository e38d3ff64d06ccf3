import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readme } from '../guide/shown.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';
import { typing } from './typing.js';

const sound = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };
const file = 'cases/quernholt/2086.md';
const recheck = ['visit', 'quernholt/2086', '--date', '2026-02-03', '--by', 'Orla Venn'];

test('from an empty folder to a visit, by flags alone', async () => {
  const { folder, growdown } = folderWith({});
  const lesion = 'a: WL, LH, outer, white line rear, line heel';
  const runs = [
    ['business', '--trimmer', 'Orla Venn'],
    ['farm', 'quernholt', '--gait-scale', 'uk-0-3', '--hemisphere', 'north', '--herd', 'cows 210, housed'],
    [
      'start',
      'quernholt/2086',
      '--date',
      '2026-01-06',
      '--lesions',
      lesion,
      '--gait',
      '2',
      '--found',
      'a: open, top 17, seen, wall 43, tool tape',
      '--recheck',
      '4 weeks',
    ],
    [
      'visit',
      'quernholt/2086',
      '--date',
      '2026-02-03',
      '--gait',
      '1',
      '--found',
      'a: open, top 21, seen, wall 43, tool ruler',
      '--blocks',
      'LH inner removed, carrying-claw bruised',
    ],
  ];
  for (const words of runs) expect(await growdown(...words), words.join(' ')).toMatchObject({ code: 0 });
  expect(readFileSync(join(folder, file), 'utf8')).toBe(`---
casefile: 1
animal: "2086"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
  - date: 2026-01-06
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape }
    recheck: 2026-02-03
  - date: 2026-02-03
    by: Orla Venn
    kind: recheck
    gait: 1
    found:
      a: { state: open, top: 21, top-found: seen, wall: 43, tool: ruler }
    blocks:
      - { foot: LH, claw: inner, event: removed, carrying-claw: bruised }
---
`);
  expect((await growdown('check', '--json')).code).toBe(0);
});

test('--dry-run shows the change and writes nothing', async () => {
  const { folder, growdown } = folderWith(sound);
  const run = await growdown(...recheck, '--gait', '1', '--dry-run');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toContain(
    '+   - date: 2026-02-03\n+     by: Orla Venn\n+     kind: recheck\n+     gait: 1\n',
  );
  expect(readFileSync(join(folder, file), 'utf8')).toBe(sound[file]);
  expect(existsSync(join(folder, 'cases/quernholt/.growdown'))).toBe(false);
});

test.each([
  ['a word that is none', [...recheck, '--found', 'a: opne'], 2, /did you mean `open`/],
  [
    'several wrong flags at once',
    ['visit', 'quernholt/2086', '--date', '2026-02-30', '--kind', 'rechek', '--found', 'a: top 24,5'],
    2,
    /--date is `2026-02-30`[^]*--kind is `rechek`[^]*--found\.a: `5` is alone[^]*decimal point/,
  ],
  ['nothing said, and nobody at a terminal', recheck, 2, /nothing is given for the visit.*--found/],
  [
    'nobody named',
    ['visit', 'quernholt/2086', '--gait', '1'],
    2,
    /who was there is not given, expected --by/,
  ],
  [
    'no such animal',
    ['visit', 'quernholt/2087', '--by', 'x', '--gait', '1'],
    2,
    /no animal `2087`.*Did you mean `2086`.*growdown start quernholt\/2087/,
  ],
  ['no animal at all', ['visit', 'quernholt', '--gait', '1'], 2, /expected FARM\/ANIMAL/],
  [
    'a visit the record cannot bear',
    [...recheck, '--gait', '7'],
    1,
    /2086\.md:1\d:\d+: error record\/.*\n[^]*nothing was written/,
  ],
  ['an unknown place', ['correct', 'quernholt/2086', '2026-01-07.gait', '1'], 2, /no visit on 2026-01-07/],
  [
    'an unknown key',
    ['correct', 'quernholt/2086', '2026-01-06.gaitt', '1'],
    2,
    /`gaitt` is not a key there.*did you mean `gait`/,
  ],
  [
    'a key of a visit without its day',
    ['correct', 'quernholt/2086', 'found.a.top', '21'],
    2,
    /after its day, as in 2026-03-03\.found\.a\.top/,
  ],
  [
    'no result',
    ['close', 'quernholt/2086'],
    2,
    /expected --result and one of "sound", "recovered, not lame", "culled"/,
  ],
  [
    'an unknown option',
    ['visit', 'quernholt/2086', '--gaet', '1'],
    2,
    /--gaet[^]*Did you mean --gait[^]*--help/,
  ],
  ['a result that is none', ['close', 'quernholt/2086', '--result', 'gone'], 2, /gone/],
  ['a picture that is not there', ['photo', 'quernholt/2086', 'gone.jpg'], 2, /there is no file gone\.jpg/],
  ['nothing to take back', ['undo', 'quernholt'], 2, /nothing is remembered/],
])('refused with a way out: %s', async (_, words, code, said) => {
  const { folder, growdown } = folderWith(sound);
  const run = await growdown(...words);
  expect(run.code, run.err).toBe(code);
  expect(run.err).toMatch(said);
  expect(readFileSync(join(folder, file), 'utf8')).toBe(sound[file]);
});

test('she is found by her tag and by her number as well as by her file, and by a former number nearly', async () => {
  const tagged = animalFile('2086').replace('calvings:', 'tag: UK 000123 402086\ncalvings:');
  const { folder, growdown } = folderWith({ ...sound, [file]: tagged });
  const visit = (named: string, day: string) =>
    growdown('visit', named, '--date', day, '--by', 'Orla Venn', '--gait', '1');
  expect(await visit('quernholt/uk000123402086', '2026-02-03')).toMatchObject({ code: 0 });
  expect(await growdown('renumber', 'quernholt/2086', '587')).toMatchObject({ code: 0 });
  const former = await visit('quernholt/2086', '2026-02-10');
  expect(former.err).toContain('Did you mean `587` (which was 2086 before)?');
  expect(readFileSync(join(folder, 'cases/quernholt/587.md'), 'utf8')).not.toContain('2026-02-10');
});

test('a value is put right and an animal moved as paths are written on Windows', async () => {
  const { folder, growdown } = folderWith(sound);
  const put = await growdown('correct', String.raw`quernholt\2086`, '2026-01-06.found.a.top', '18');
  expect(put).toMatchObject({ code: 0, err: '' });
  expect(readFileSync(join(folder, file), 'utf8')).toContain('top: 18');
  expect((await growdown('farm', 'oddmere', '--farm', 'Oddmere')).code).toBe(0);
  const moved = await growdown('move', String.raw`cases\quernholt\2086.md`, String.raw`oddmere\301`);
  // What she brought was found where she was: that is no gap in the record of the new farm.
  expect(moved).toMatchObject({ code: 0, err: '' });
  expect(readFileSync(join(folder, 'cases/oddmere/301.md'), 'utf8')).toContain('animal: "301"');
});

test('a value is put right with its reason, reported as JSON, and taken back', async () => {
  const { folder, growdown } = folderWith(sound);
  const run = await growdown(
    'correct',
    'quernholt/2086',
    '2026-01-06.found.a.top',
    '18',
    '--was',
    '17',
    '--why',
    'misread',
    '--by',
    'Orla Venn',
    '--json',
  );
  expect(JSON.parse(run.out)).toMatchObject({
    written: true,
    what: 'visits.1.found.a.top: 17 → 18',
    files: [{ file, became: 'changed' }],
  });
  expect(readFileSync(join(folder, file), 'utf8')).toContain(
    'amended:\n      - { date: 2026-06-16, by: Orla Venn, why: "misread" }',
  );
  expect((await growdown('undo', 'quernholt')).code).toBe(0);
  expect(readFileSync(join(folder, file), 'utf8')).toBe(sound[file]);
});

test('a number alone is enough where one animal of all farms has it', async () => {
  const { folder, growdown, put } = folderWith({ ...sound, 'cases/oddmere/farm.md': farmFile });
  const visit = (day: string) => growdown('visit', '2086', '--date', day, '--by', 'Orla Venn', '--gait', '1');
  expect(await visit('2026-02-03')).toMatchObject({ code: 0 });
  expect(readFileSync(join(folder, file), 'utf8')).toContain('date: 2026-02-03');
  put('cases/oddmere/2086.md', animalFile('2086'));
  expect((await visit('2026-02-10')).err).toMatch(/more than one animal.*`oddmere\/2086`, `quernholt\/2086`/);
});

test('of a cow that is gone nothing begins anew', async () => {
  const { growdown } = folderWith(sound);
  expect(await growdown('close', 'quernholt/2086', '--result', 'culled')).toMatchObject({ code: 0 });
  const run = await growdown('reopen', 'quernholt/2086');
  expect(run.code).toBe(2);
  expect(run.err).toMatch(/culled on 2026-06-16.*growdown correct.*growdown start quernholt\/2086-2/);
});

test('a picture is copied under a clear name', async () => {
  const { folder, growdown } = folderWith(sound);
  writeFileSync(
    join(folder, 'IMG 1.JPG'),
    Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1),
  );
  expect(
    await growdown(
      'photo',
      'quernholt/2086',
      'IMG 1.JPG',
      '--foot',
      'LH',
      '--view',
      'sole',
      '--when',
      'after',
    ),
  ).toMatchObject({ code: 0 });
  expect(readdirSync(join(folder, 'cases/quernholt/photos'))).toEqual(['2086-2026-01-06-lh-sole.jpg']);
});

/** Walk, state, top, how found, wall, tool, signs, block, when again, anything else. */
const answers = ['1', 'o', '21', 's', '43', 'r', '', 'LH inner off, bruised', '4w', ''];
const asked = ['visit', 'quernholt/2086', '--date', '2026-02-17', '--by', 'Orla Venn'];

test('by questions: what is due is shown, words by their first letters; what was read before and what was expected only after the reading', async () => {
  const { dialogue, said } = typing(answers);
  const { folder, growdown } = folderWith(sound, { dialogue });
  const run = await growdown(...asked);
  expect(run.code, run.err).toBe(0);
  expect(said[0]).toBe('Last visit, 6 January 2026, Orla Venn');
  const before = said.findIndex((line) => line.includes('top 17 mm'));
  expect(before).toBeGreaterThan(said.findIndex((line) => line.includes('top, mm from the coronet')));
  expect(said[before]).toContain(
    'a, 6 January 2026: open; top 17 mm; top seen, loose wall off; wall 43 mm; measured: tape',
  );
  expect(said[1]).toMatch(/^Due\n {2}/);
  const expected = said.findIndex((line) => /should (read|be) /.test(line));
  expect(expected).toBeGreaterThan(said.findIndex((line) => line.includes('top, mm from the coronet')));
  expect(readFileSync(join(folder, file), 'utf8')).toContain(`  - date: 2026-02-17
    by: Orla Venn
    kind: recheck
    gait: 1
    found:
      a: { state: open, top: 21, top-found: seen, wall: 43, tool: ruler }
    blocks:
      - { foot: LH, claw: inner, event: removed, carrying-claw: bruised }
    recheck: 2026-03-17
---
`);
});

test('by questions: who asks to see the expected reading first has that kept', async () => {
  const { dialogue } = typing(['1', 'o', '?', ...answers.slice(2)]);
  const { folder, growdown } = folderWith(sound, { dialogue });
  expect((await growdown(...asked)).code).toBe(0);
  expect(readFileSync(join(folder, file), 'utf8')).toContain('    saw-expected: true\n');
});

test('by questions: of a healed lesion nothing is measured, and who leaves has written nothing', async () => {
  const { dialogue, said } = typing(['1', 'h', 'LH inner removed']);
  const { folder, growdown } = folderWith(sound, { dialogue });
  const run = await growdown(...asked);
  expect(run).toMatchObject({
    code: 2,
    err: expect.stringContaining('left before the end; nothing was written'),
  });
  expect(said.filter((line) => line.startsWith('a, white line disease'))).toHaveLength(1);
  expect(readFileSync(join(folder, file), 'utf8')).toBe(sound[file]);
});

test('a case is opened by questions: her, her lesions, the first visit', async () => {
  const lesions = ['WL', 'lh', 'o', 'white line rear', 'h', 'sole ulcer', 'lh', 'outer', '', ''];
  const visit = ['2', 'o', '17', 's', '43', 't', 'und', 'o', '18', '14', 'r', '', '', '', '', '', '', ''];
  const { dialogue } = typing(['', '', '', '2023-09-30, 2024-10-19', 'kicks left', ...lesions, ...visit]);
  const { folder, growdown } = folderWith(sound, { dialogue });
  const run = await growdown('start', 'quernholt/41', '--by', 'Orla Venn');
  expect(run.code, run.err).toBe(0);
  expect(readFileSync(join(folder, 'cases/quernholt/41.md'), 'utf8')).toBe(`---
casefile: 1
animal: "41"
calvings: [2023-09-30, 2024-10-19]
handling: "kicks left"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
  b: { code: SU, foot: LH, claw: outer }
visits:
  - date: 2026-06-16
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape, signs: [undermined] }
      b: { state: open, width: 14, length: 18, tool: ruler }
---
`);
});

test('the recheck README writes by flags is written by questions with fewer than half the keystrokes', async () => {
  const [, byFlags = ''] = /^(growdown visit quernholt\/2086 .*)$/m.exec(readme) ?? [];
  const flags =
    byFlags
      .split(' ')
      .slice(1)
      .join(' ')
      .match(/"[^"]*"|\S+/g) ?? [];
  const withBlock = sound[file].replace(
    '---\n\nInvented',
    '    blocks:\n      - { foot: LH, claw: inner, event: fitted }\n---\n\nInvented',
  );
  const { dialogue, keys } = typing(answers.with(7, 'off, bruised'));
  const written = [flags.map((word) => word.replaceAll('"', '')), asked.slice(0, 2)].map(async (words) => {
    const { folder, growdown } = folderWith(
      { ...sound, [file]: withBlock, 'cases/business.md': '---\ntrimmer: Orla Venn\n---\n' },
      { dialogue },
    );
    expect(await growdown(...words)).toMatchObject({ code: 0 });
    return readFileSync(join(folder, file), 'utf8');
  });
  const [first, second] = await Promise.all(written);
  expect(first).toBe(second);
  expect('growdown visit quernholt/2086'.length + 1 + keys()).toBeLessThan((byFlags.length + 1) / 2);
});
