import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Dialogue } from '../../src/run/dialogue.js';
import { files } from '../note/two-farms.js';
import { folderWith } from './run-in-folder.js';

const note =
  'Quernholt 15 June 2026\n2117 LH outer: top 21, wall 43, tape, seen. block off, carrying claw bruised. mobility 1 off block. quiet. look again 4 weeks.\n';
const caseOf = (folder: string, animal = 'quernholt/2117') =>
  readFileSync(join(folder, `cases/${animal}.md`), 'utf8');

test('a certain visit is added, every other byte kept; taken again, nothing is added', async () => {
  const { folder, growdown } = folderWith({ ...files, 'note.txt': note });
  const before = caseOf(folder);
  const first = await growdown('take', 'note.txt');
  expect(first).toMatchObject({ code: 0, err: '' });
  // What was taken in one line, what became of it, and last what was not understood.
  expect(first.out).toMatch(
    /^quernholt\/2117, 2026-06-15: .*a: top 21; a: wall 43; .*\n {2}added\n\nquernholt\/2117, 2026-06-15\n {2}line 2: “quiet” ✗ not understood: kept in the note of the visit\n$/,
  );
  const after = caseOf(folder);
  expect(after.startsWith(before.slice(0, before.lastIndexOf('---')))).toBe(true);
  expect(after).toMatch(/note: "?quiet/);
  const check = JSON.parse((await growdown('check', '--json')).out) as { id: string; severity: string }[];
  expect(check.filter(({ severity }) => severity === 'error')).toEqual([]);
  const again = await growdown('take', 'note.txt');
  expect(again).toMatchObject({ code: 0 });
  expect(again.out).toContain('  already there\n');
  expect(caseOf(folder)).toBe(after);
});

test('three lines a cow at most on a narrow terminal, with how far it has got; doubts and what is left over last', async () => {
  const cows = ['2117', '2133', '2155', '2117', '2133'].map(
    (animal, at) =>
      `${at + 10} June\n${animal} ${animal === '2133' ? 'RH ulcer healed' : 'a: open, top 21, wall 43, tape, seen. all four trimmed. weight 640. condition 3. tools disinfected. look again 4 weeks. quiet'}`,
  );
  const { growdown } = folderWith(
    { ...files, 'note.txt': `Quernholt 2026\n${cows.join('\n')}\n2155 LH outer: top 21 ruler\n` },
    { terminalWidth: 60 },
  );
  const { out } = await growdown('take', 'note.txt', '--yes');
  const [taken = '', ...left] = out.split('\n\n');
  const cowsSaid = taken.split(/^(?=\d of )/m);
  expect(cowsSaid.length).toBeGreaterThanOrEqual(5);
  for (const [at, cow] of cowsSaid.entries()) {
    expect(cow.trimEnd().split('\n').length, cow).toBeLessThanOrEqual(3);
    expect(cow).toMatch(new RegExp(`^${at + 1} of ${cowsSaid.length}: `));
  }
  expect(taken).toMatch(/and (?:one thing|\d things) more/);
  expect(taken).not.toMatch(/line \d+:/);
  expect(left.join('\n')).toContain('which lesion is it?');
});

test('a changed note for a day on file is reported and not written', async () => {
  const { folder, growdown, put } = folderWith({ ...files, 'note.txt': note });
  await growdown('take', 'note.txt');
  const after = caseOf(folder);
  put('note.txt', note.replace('top 21', 'top 24'));
  const again = await growdown('take', 'note.txt');
  expect(again.code).toBe(1);
  expect(again.out).toContain('found.a.top: the note says 24, the file 21');
  expect(caseOf(folder)).toBe(after);
});

test('a second note on other feet of that day is reported, not merged', async () => {
  const { folder, growdown, put } = folderWith({
    ...files,
    'note.txt': 'Quernholt 15 June\n2133 RH DD M4\n',
  });
  await growdown('take', 'note.txt');
  const after = caseOf(folder, 'quernholt/2133');
  put('note.txt', 'Quernholt 15 June\n2133 LH DD M1\n');
  expect(await growdown('take', 'note.txt')).toMatchObject({ code: 1 });
  expect(caseOf(folder, 'quernholt/2133')).toBe(after);
});

test('without a terminal the questions are listed, that visit is left unwritten, the certain one is added', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'note.txt': 'Quernholt 15 June\n2155 LH outer: top 21 ruler\n2133 RH ulcer healed\n',
  });
  const before = caseOf(folder, 'quernholt/2155');
  const run = await growdown('take', 'note.txt');
  expect(run.code).toBe(1);
  expect(run.out).toContain('one of: a, white line disease, LH outer · b, vertical horn fissure, LH outer');
  expect(run.out).toContain('to be certain: say its foot and kind');
  expect(run.out).toContain('one visit waits for an answer, and nothing of the note is lost');
  expect(caseOf(folder, 'quernholt/2155')).toBe(before);
  expect(caseOf(folder, 'quernholt/2133')).toContain('2026-06-15');
});

test('a note that waits is gone on with, and waits no more once it is answered', async () => {
  const text = 'Quernholt 15 June\n2155 LH outer: top 33 ruler\n2133 RH ulcer healed\n';
  let answers = ['lesion b', 'yes'];
  const choose: Dialogue['choose'] = async (_, choices) => {
    const wanted = answers.shift();
    return await Promise.resolve(choices.find(({ value }) => value.trim().startsWith(wanted ?? ''))?.value);
  };
  const at = folderWith({ ...files, 'note.txt': text }, { dialogue: { show: () => undefined, choose, line: async () => await Promise.resolve(undefined) } }); // prettier-ignore
  expect(await at.growdown('take', 'note.txt', '--yes')).toMatchObject({ code: 1 });
  expect(readFileSync(join(at.folder, 'cases/.growdown/notes.jsonl'), 'utf8')).toContain('top 33 ruler');
  // Taken again unanswered, it does not wait twice.
  expect(await at.growdown('take', 'note.txt', '--yes')).toMatchObject({ code: 1 });
  expect(
    readFileSync(join(at.folder, 'cases/.growdown/notes.jsonl'), 'utf8').trim().split('\n'),
  ).toHaveLength(1);
  expect(await at.growdown('take')).toMatchObject({ code: 0 });
  expect(caseOf(at.folder, 'quernholt/2155')).toMatch(/b: \{ state: open, top: 33, tool: ruler \}/);
  answers = [];
  const empty = await at.growdown('take');
  expect(empty).toMatchObject({ code: 0 });
  expect(empty.out).not.toContain('2155');
  // Taken back, it waits again with its answers, and what else it says is on file.
  const written = caseOf(at.folder, 'quernholt/2155');
  expect(await at.growdown('undo', 'quernholt')).toMatchObject({ code: 0, err: '' });
  expect(caseOf(at.folder, 'quernholt/2155')).not.toContain('top: 33');
  answers = ['yes'];
  expect((await at.growdown('take')).out).toMatch(/already there/);
  expect(caseOf(at.folder, 'quernholt/2155')).toBe(written);
  expect((await at.growdown('take')).out).not.toContain('2155');
});

test('a new cow gets a case; one without a case is asked about and drafted', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'note.txt': 'Quernholt 15 June\nNew cow 3100, LH outer sole ulcer 12 x 9. MS 2\n3200 LH DD M2\n',
  });
  const run = await growdown('take', 'note.txt', '--json');
  expect(run.code).toBe(1);
  const { animals } = JSON.parse(run.out) as { animals: object[] };
  expect(animals).toMatchObject([
    { animal: '3100', became: 'added', lesions: { a: { code: 'SU', foot: 'LH', claw: 'outer' } } },
    { animal: '3200', became: 'to be asked', visit: { found: { a: { stage: 'M2' } } }, questions: [{ id: 'no-case' }] },
  ]); // prettier-ignore
  expect(caseOf(folder, 'quernholt/3100')).toContain('length: 12');
});

test('the dry run shows the change and writes nothing', async () => {
  const { folder, growdown } = folderWith({ ...files, 'note.txt': note });
  const before = caseOf(folder);
  const run = await growdown('take', 'note.txt', '--dry-run');
  expect(run).toMatchObject({ code: 0 });
  expect(run.out).toContain('+   - ');
  expect(run.out).toContain('line 2: “top 21” → a: top 21');
  expect(run.out).toContain('  would be added\n');
  expect(caseOf(folder)).toBe(before);
});

test('a visit that would make the record wrong is refused', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'note.txt': 'Quernholt 15 June\n2117 a: open, top 60, wall 43, calliper\n',
  });
  const before = caseOf(folder);
  const run = await growdown('take', 'note.txt');
  expect(run.code).toBe(1);
  expect(run.err).toContain('top-beyond-wall');
  expect(caseOf(folder)).toBe(before);
});

describe('at a terminal', () => {
  const answering = (...answers: (string | undefined)[]): { dialogue: Dialogue; asked: string[] } => {
    const asked: string[] = [];
    const next = async (question: string) => {
      asked.push(question);
      return await Promise.resolve(answers.shift());
    };
    return { asked, dialogue: { show: () => undefined, choose: next, line: next } };
  };

  test('each answer is put into the note, which is read again', async () => {
    const { asked, dialogue } = answering(' lesion b top 33', 'yes');
    const { folder, growdown } = folderWith(
      { ...files, 'note.txt': 'Quernholt 15 June\n2155 LH outer: top 33 ruler\n' },
      { dialogue },
    );
    const run = await growdown('take', 'note.txt');
    expect(run).toMatchObject({ code: 0 });
    expect(asked[0]).toContain('which lesion is it?');
    expect(asked[1]).toBe('add this visit to quernholt/2155?');
    expect(caseOf(folder, 'quernholt/2155')).toMatch(/b: \{ state: open, top: 33, tool: ruler \}/);
  });

  test('what is left out stays unwritten, and so does what is not agreed to', async () => {
    const { dialogue } = answering(undefined, 'no');
    const { folder, growdown } = folderWith(
      { ...files, 'note.txt': 'Quernholt 15 June\n2155 LH outer: top 33 ruler\n2133 RH ulcer healed\n' },
      { dialogue },
    );
    const before = [caseOf(folder, 'quernholt/2155'), caseOf(folder, 'quernholt/2133')];
    expect(await growdown('take', 'note.txt')).toMatchObject({ code: 1 });
    expect([caseOf(folder, 'quernholt/2155'), caseOf(folder, 'quernholt/2133')]).toEqual(before);
  });

  test('every choice offered makes the note certain, or leads to the next question', async () => {
    const notes = ['Quernholt 3/4/26\n2133 RH ulcer healed\n', 'Quernholt\n2133 RH ulcer healed\n', '15 June\n2117 a: top 24 ruler\n', 'Quernholt 15 June\n2313 RH DD M2\n', 'Quernholt 15 June\n2117 a: maybe top 21 ruler\n', 'Quernholt 15 June\n2155 a: top 18 ruler\n', 'Quernholt 15 June\n2133 DD M4\n', 'Quernholt 15 June\n2117 a: top 21, ruler. a: top 22\n', 'Quernholt 15 June\n2133 RH ulcer closed\n', 'Quernholt 15 June\n2117 RH sole ulcer 8 x 6\n', 'Quernholt 15 June\n2117 a: top 21. MS 1?\n', 'Quernholt 15 June\n2117 a: top 21. look again mid July\n']; // prettier-ignore
    for (const text of notes) {
      let questions = 0;
      const dialogue: Dialogue = {
        choose: async (_, choices) => {
          questions += 1;
          return await Promise.resolve(
            (choices.find(({ label }) => label === 'Quernholt') ?? choices[0]!).value,
          );
        },
        show: () => undefined,
        line: async () => await Promise.resolve(undefined),
      };
      const { growdown } = folderWith({ ...files, 'note.txt': text }, { dialogue });
      const run = await growdown('take', 'note.txt', '--dry-run');
      expect(run.code, `${text}\n${run.out}${run.err}`).toBe(0);
      expect(questions, text).toBeGreaterThan(0);
    }
  });
});

test('standard input, JSON, a farm named on the command line', async () => {
  const { growdown } = folderWith(files, {
    readInput: () => new TextEncoder().encode('15 June\n2117 a: top 21 ruler'),
  });
  const run = await growdown('take', '-', '--farm', 'quernholt', '--json');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(JSON.parse(run.out)).toMatchObject({
    animals: [{ farm: 'quernholt', animal: '2117', became: 'added', draft: { found: { a: { top: 21 } } } }],
  });
});

test('no such note, no text, no such farm: wrong use, each with a word on what to do', async () => {
  const { growdown } = folderWith({ ...files, 'photo.txt': new Uint8Array([0xff, 0xd8, 0xff]) });
  expect(await growdown('take', 'nothere.txt')).toMatchObject({ code: 2 });
  expect((await growdown('take', 'photo.txt')).err).toContain('not plain text');
  expect(await growdown('take', 'photo.txt', '--farm', 'nosuch')).toMatchObject({ code: 2 });
});

test('a lesion first met is declared with its visit, and once: by the same note again, and by a later day in it', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'note.txt':
      'Quernholt 15 June\n2117 RH DD M2. New sole ulcer RF inner, open, 12 x 9 ruler\n16 June\n2117 report from Nan Thistlewrack. RH DD smell\n',
  });
  const run = await growdown('take', 'note.txt', '--yes');
  expect(run.code, run.out + run.err).toBe(0);
  expect(run.out).toContain('; a lesion first met, declared as b, digital dermatitis, RH; ');
  const after = caseOf(folder);
  expect(after.match(/^ {2}b: \{ code: DD, foot: RH \}$/gm)).toHaveLength(1);
  expect(after).toContain('b: { stage: M2 }');
  expect(after).toContain('c: { code: SU, foot: RF, claw: inner }');
  const again = await growdown('take', 'note.txt', '--yes');
  expect(again.out.match(/already there/g)).toHaveLength(2);
  expect(caseOf(folder)).toBe(after);
});

test('a former number, an unknown farm and Windows Unicode text: each with its way out', async () => {
  const { growdown, put } = folderWith({
    ...files,
    'cases/quernholt/3001.md': files['cases/quernholt/2155.md']!.replace(
      'animal: "2155"',
      'animal: "3001"\nearlier: [{ animal: "587", until: 2026-01-06 }]',
    ),
    'note.txt': 'Quernholt 15 June\n587 a covered\n',
  });
  const former = await growdown('take', 'note.txt');
  expect(former.out).toContain('one of: 3001, which was 587 until 2026-01-06');
  put('note.txt', 'Quernhold 15 June\n2117 a covered\n');
  // A slip or two from a farm's name, it is that farm.
  expect(await growdown('take', 'note.txt', '--dry-run')).toMatchObject({ code: 0 });
  put('note.txt', '15 June\n2117 a covered\n');
  expect((await growdown('take', 'note.txt')).out).toContain('which farm is 2117 on?');
  put('note.txt', Buffer.from(`\ufeff${note}`, 'utf16le'));
  expect(await growdown('take', 'note.txt')).toMatchObject({ code: 0 });
});
