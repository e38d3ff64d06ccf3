import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Dialogue } from '../../src/run/dialogue.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../src/cli/node-disk.js';
import { keepEntry } from '../../src/keep/inbox/take-entry.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';
import { typing } from './typing.js';

// Her top was 17 mm on 6 January: by June 24 fits, and 2.4 does not.
const question = '2.4 mm? 24 would fit.';
const found = ['--found', 'a: open, top 2.4, top-found seen, tool ruler'];
const visit = ['visit', 'quernholt/2086', '--by', 'Orla Venn'];
const files = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };

function kept(more: Record<string, string> = {}, changed: Parameters<typeof folderWith>[1] = {}) {
  const made = folderWith({ ...files, ...more }, changed);
  return { ...made, text: () => readFileSync(join(made.folder, 'cases/quernholt/2086.md'), 'utf8') };
}

/** Somebody who chooses these answers by their words, and what was asked. */
function choosing(...answers: string[]): { readonly dialogue: Dialogue; readonly asked: string[] } {
  const asked: string[] = [];
  const choose: Dialogue['choose'] = (message, choices) => {
    asked.push(message);
    const answer = answers.shift();
    return Promise.resolve(choices.find(({ label }) => label === answer)?.value);
  };
  return { asked, dialogue: { ...typing([]).dialogue, choose } };
}

describe('by flags', () => {
  test('nobody at a terminal: refused with the question, written with --even-so, and then warned of by check', async () => {
    const { growdown, text } = kept();
    const asked = await growdown(...visit, ...found);
    expect(asked).toMatchObject({ code: 1, out: '' });
    expect(asked.err).toContain(`warning record/centimetres: found.a.top: ${question}`);
    expect(asked.err).toContain('nothing was written; put it right, or say --even-so if it is right');
    expect(text()).toBe(files['cases/quernholt/2086.md']);

    const written = await growdown(...visit, ...found, '--even-so');
    expect(written.code).toBe(0);
    expect(written.err).toContain(question);
    expect(text()).toContain('top: 2.4');
    const check = await growdown('check');
    expect(check.code).toBe(0);
    expect(check.out + check.err).toContain(`found.a.top: ${question}`);
    // What was asked once is not asked again with the next entry.
    expect(
      (await growdown(...visit, '--date', '2026-06-17', '--today', '2026-06-17', '--gait', '1')).code,
    ).toBe(0);
  });

  test('at a terminal: asked; no writes nothing, yes writes it', async () => {
    const no = choosing('no, write nothing');
    const left = kept({}, { dialogue: no.dialogue });
    expect((await left.growdown(...visit, ...found)).code).toBe(1);
    expect(left.text()).toBe(files['cases/quernholt/2086.md']);
    expect(no.asked).toEqual(['is this right as it is?']);
    const yes = kept({}, { dialogue: choosing('yes, write it').dialogue });
    expect((await yes.growdown(...visit, ...found)).code).toBe(0);
    expect(yes.text()).toContain('top: 2.4');
  });

  test('what fits is written without a word', async () => {
    const { growdown } = kept();
    const done = await growdown(...visit, '--found', 'a: open, top 24, top-found seen, tool ruler');
    expect(done).toMatchObject({ code: 0, err: '' });
  });

  test.each<[string, string[], string]>([
    ['a day before her last visit', ['--date', '2025-12-20'], '2025-12-20? Her last visit is of 2026-01-06.'],
    ['a day in the wrong year', ['--date', '2025-06-10'], '2025-06-10? 2026-06-10 would fit.'],
    ['a recheck in the wrong year', ['--recheck', '2027-07-14'], '2027-07-14? 2026-07-14 would fit.'],
    ['both lengths', ['--found', 'a: open, top 1.8, top-found seen, wall 4.4'], '4.4 mm? 44 would fit.'],
  ])('%s', async (_, flags, asked) => {
    const { growdown, text } = kept();
    const run = await growdown(...visit, '--gait', '1', ...flags);
    expect(run.code).toBe(1);
    expect(run.err).toContain(asked);
    expect(text()).toBe(files['cases/quernholt/2086.md']);
    expect((await growdown(...visit, '--gait', '1', ...flags, '--even-so')).code).toBe(0);
  });

  test('a reading that fits another cow alone', async () => {
    const { growdown, text } = kept({
      'cases/quernholt/2068.md': animalFile('2068', 'top: 11, top-found: seen, wall: 43, tool: tape').replace(
        '2026-01-06',
        '2026-05-19',
      ),
      'cases/quernholt/2086.md': animalFile('2086', 'top: 33, top-found: seen, wall: 43, tool: tape').replace(
        '2026-01-06',
        '2026-05-19',
      ),
    });
    const before = text();
    const run = await growdown(...visit, '--found', 'a: open, top 15, top-found seen, tool ruler');
    expect(run.code).toBe(1);
    expect(run.err).toContain('entry/other-animal: found.a.top: 15 mm? It would fit lesion a of 2068.');
    expect(text()).toBe(before);
  });

  test('a correction and a case opened are asked about alike', async () => {
    const { growdown } = kept();
    const corrected = await growdown('correct', 'quernholt/2086', '2026-01-06.found.a.top', '0.8');
    expect(corrected).toMatchObject({ code: 1 });
    expect(corrected.err).toContain('0.8 mm? 8 would fit.');
    const wall = await growdown('correct', 'quernholt/2086', '2026-01-06.found.a.wall', '4.3');
    expect(wall.err).toMatch(
      /error record\/top-beyond-wall[^]*warning record\/centimetres: found.a.wall: 4.3 mm\? 43 would fit\./,
    );
    const lesion = ['--lesions', 'a: WL, LH, outer, line heel'];
    const short = ['--found', 'a: open, top 1.8, top-found seen, wall 4.4'];
    const opened = await growdown('start', 'quernholt/2117', ...lesion, '--by', 'Orla Venn', ...short);
    expect(opened).toMatchObject({ code: 1 });
    expect(opened.err).toContain('1.8 mm? 18 would fit.');
  });
});

describe('by questions', () => {
  const run = ['visit', 'quernholt/2086', '--by', 'Orla Venn'];
  /** Walk, state, top, how found, wall, tool; nothing more. */
  const lines = ['1', 'o', '2.4', 's', '', 'r', '', '', '', ''];
  const asking = (...answers: string[]) => {
    const typed = typing(lines);
    const chosen = choosing(...answers);
    return { asked: chosen.asked, dialogue: { ...typed.dialogue, choose: chosen.dialogue.choose } };
  };

  test('asked as soon as it is typed, with what would fit among the answers', async () => {
    const fits = asking('24', 'write it');
    const made = kept({}, { dialogue: fits.dialogue });
    expect((await made.growdown(...run)).code).toBe(0);
    expect(fits.asked).toEqual([question, 'Write this?']);
    expect(made.text()).toMatch(/date: 2026-06-16[^]*top: 24,/);
  });

  test('right as it stands is written, leaving writes nothing', async () => {
    const right = kept({}, { dialogue: asking('right as it is', 'write it').dialogue });
    expect((await right.growdown(...run)).code).toBe(0);
    expect(right.text()).toContain('top: 2.4');
    const left = kept({}, { dialogue: asking('leave, write nothing').dialogue });
    expect((await left.growdown(...run)).code).toBe(2);
    expect(left.text()).toBe(files['cases/quernholt/2086.md']);
  });

  test('a day before her last visit is asked about first', async () => {
    const { asked, dialogue } = asking('leave, write nothing');
    const { growdown } = kept({}, { dialogue });
    expect((await growdown(...run, '--date', '2025-12-20')).code).toBe(2);
    expect(asked).toEqual(['2025-12-20? Her last visit is of 2026-01-06.']);
  });
});

describe('by note', () => {
  const note = { 'note.txt': 'Quernholt 15 June\n2086 a: open, top 2.4 ruler. by Orla Venn\n' };

  test('not added without a word, with --yes neither; with --even-so it is', async () => {
    const { growdown, text } = kept(note);
    for (const words of [[], ['--yes']]) {
      const run = await growdown('take', 'note.txt', ...words);
      expect(run.code).toBe(1);
      expect(run.err).toContain(question);
      expect(run.out).toContain('nothing added; put it right, or say --even-so');
    }
    const json = await growdown('take', 'note.txt', '--json');
    expect(JSON.parse(json.out)).toMatchObject({
      animals: [{ became: 'to be asked', problems: [{ id: 'record/centimetres' }] }],
    });
    expect(text()).toBe(files['cases/quernholt/2086.md']);
    expect((await growdown('take', 'note.txt', '--even-so')).code).toBe(0);
    expect(text()).toContain('top: 2.4');
  });

  test('at a terminal it is asked', async () => {
    const { asked, dialogue } = choosing('yes, write it', 'yes');
    const { growdown, text } = kept(note, { dialogue });
    expect((await growdown('take', 'note.txt')).code).toBe(0);
    expect(asked[0]).toBe('is this right as it is?');
    expect(text()).toContain('top: 2.4');
  });

  test('centimetres that are said are no question', async () => {
    const { growdown, text } = kept({ 'note.txt': note['note.txt'].replace('2.4', '2.4 cm') });
    expect(await growdown('take', 'note.txt', '--yes')).toMatchObject({ code: 0, err: '' });
    expect(text()).toContain('top: 24');
  });
});

test('what a phone sent waits in the inbox until somebody answers; what was answered there is taken', async () => {
  for (const evenSo of [false, true]) {
    const { folder, growdown, text } = kept();
    keepEntry(nodeDisk(folder, nodeCaseFiles), join(folder, 'cases/quernholt'), {
      form: '00000000-0000-4000-8000-000000000001',
      on: '2026-06-16',
      animal: '2086',
      visit: {
        date: '2026-06-16',
        by: 'Orla Venn',
        kind: 'recheck',
        found: { a: { state: 'open', top: 2.4, 'top-found': 'seen', tool: 'ruler' } },
      },
      declares: {},
      evenSo,
      pictures: [],
    });
    const taken = await growdown('take');
    expect(taken.code).toBe(evenSo ? 0 : 1);
    expect(taken.err).toContain(question);
    expect(text().includes('top: 2.4')).toBe(evenSo);
    if (!evenSo) expect((await growdown('take', '--even-so')).code).toBe(0);
    expect(text()).toContain('top: 2.4');
  }
});

test('a list of animals: a row that looks like a slip is not taken, with --even-so it is', async () => {
  const { growdown, text } = kept({ 'herd.csv': 'Ear No,Due\n2086,2027-09-01\n' });
  const run = [
    'import',
    'herd.csv',
    '--farm',
    'quernholt',
    '--map',
    'Ear No=animal',
    '--map',
    'Due=due-to-calve',
  ];
  const asked = await growdown(...run);
  expect(asked.code).toBe(1);
  expect(asked.err).toContain('2027-09-01? 2026-09-01 would fit.');
  expect(asked.err).toContain('taken with --even-so');
  expect(text()).toBe(files['cases/quernholt/2086.md']);
  expect((await growdown(...run, '--even-so')).code).toBe(0);
  expect(text()).toContain('due-to-calve: 2027-09-01');
});

test('an animal that moves or gets another number is not asked about what stood in her file before', async () => {
  const { growdown } = kept({
    'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
    'cases/quernholt/2086.md': animalFile('2086', 'top: 0.8, top-found: seen, wall: 43, tool: tape'),
  });
  expect((await growdown('renumber', 'quernholt/2086', '2990')).code).toBe(0);
  expect((await growdown('move', 'quernholt/2990', 'harrowmere')).code).toBe(0);
});
