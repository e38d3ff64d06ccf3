import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from '../../cli/run-in-folder.js';
import { atDesk } from './at-desk.js';

const file = 'cases/quernholt/2086.md';
const files = { 'cases/quernholt/farm.md': farmFile, [file]: animalFile('2086') };
const visit = ['visit', 'quernholt/2086', '--date', '2026-02-17', '--by', 'Orla Venn'];

/** A recheck answered with these texts: what is written, and what was said. */
async function asked(...texts: readonly string[]) {
  const desk = atDesk(...texts);
  const { folder, growdown } = folderWith(files, { dialogue: desk.dialogue });
  const run = await growdown(...visit);
  return { ...run, ...desk, text: readFileSync(join(folder, file), 'utf8') };
}

const walk = 'Mobility score before lifting, 0 to 3';
const ofA = (said: readonly string[], what: string) =>
  said.filter((one) => one.includes(`outer claw: ${what}`));

test.each([
  ['a score off the scale', ['7', '1', 'o', '', '', '', '', '', '', 'write it'], /7[^]*uk-0-3/],
  ['a score that is none', ['soon', '1', 'o', '', '', '', '', '', '', 'write it'], /`soon`, expected a number/], // prettier-ignore
  ['a wall too long', ['1', 'o', '', '430', '43', 'r', '', '', '', '', 'write it'], /`430`, expected .*200/],
  ['a wall in another unit', ['1', 'o', '', '43 kg', '43 mm', 'r', '', '', '', '', 'write it'], /`43 kg`, expected/], // prettier-ignore
  [
    'a day that is none',
    ['1', 'o', '', '', '', '', '31 June', '30 June', '', 'write it'],
    /`31 June`, expected/,
  ],
  [
    'a day before the visit',
    ['1', 'o', '', '', '', '', '2026-02-01', '4 weeks', '', 'write it'],
    /2026-02-01/,
  ],
  ['a block without its claw', ['1', 'o', '', '', '', 'LH fitted', '', '', '', 'write it'], /claw/],
])('held to its scale, unit and kind at the question: %s', async (_, texts, wrong) => {
  const { code, said, left, err } = await asked(...texts);
  expect(code, said.join('\n') + err).toBe(0);
  expect(said.filter((one) => one.startsWith('✗'))).toEqual([expect.stringMatching(wrong)]);
  expect(left).toEqual([]);
});

test('lengths in any unit, words as the trade says them', async () => {
  const { text, said } = await asked('1', 'still open', '2.1 cm', 'probed', '1-11/16"', 'steel rule', 'underrun, bled', 'left hind medial off, bruised', 'a fortnight', '', 'write it'); // prettier-ignore
  expect(said.filter((one) => one.startsWith('✗'))).toEqual([]);
  expect(text).toContain(
    'a: { state: open, top: 21, top-found: felt, wall: 42.9, tool: ruler, signs: [undermined, bleeding] }',
  );
  expect(text).toContain('{ foot: LH, claw: inner, event: removed, carrying-claw: bruised }');
  expect(text).toContain('recheck: 2026-03-03');
});

test('back goes to the question before, as often as it is typed; only what was gone back over is asked again', async () => {
  const { code, said, text } = await asked('2', 'o', '12', 'back', 'back', 'back', '1', 'o', '21', 's', '', 'r', '', '', '', '', 'write it'); // prettier-ignore
  expect(code, said.join('\n')).toBe(0);
  expect(said.filter((one) => one.startsWith(walk))).toEqual([walk, `${walk} [2]`]);
  expect(ofA(said, 'top, mm').at(-1)).toContain('[12]');
  expect(text).toContain(
    'gait: 1\n    found:\n      a: { state: open, top: 21, top-found: seen, tool: ruler }',
  );
});

test('at the first question there is nothing to go back to', async () => {
  const { said, text } = await asked('back', '1', 'o', '', '', '', '', '', '', 'write it');
  expect(said).toContain('✗ this is the first question');
  expect(text).toContain('gait: 1');
});

test('the last look shows the visit as it would be written; one answer is changed, and that alone asked again', async () => {
  const answers = ['1', 'o', '12', 's', '43', 'r', '', '', '4w', ''];
  const { said, text, code } = await asked(...answers, 'change an answer', 'a top: 12', '21', 'write it');
  expect(code, said.join('\n')).toBe(0);
  expect(said.filter((one) => one.includes('  - date: 2026-02-17\n'))).toEqual([
    expect.stringContaining('top: 12'),
    expect.stringContaining('top: 21'),
  ]);
  expect(said.filter((one) => one === walk)).toHaveLength(1);
  expect(ofA(said, 'state')).toHaveLength(1);
  expect(ofA(said, 'top, mm')).toHaveLength(2);
  expect(text).toContain('a: { state: open, top: 21, top-found: seen, wall: 43, tool: ruler }');
});

test('a changed answer brings its own questions, and takes away those that make no sense any more', async () => {
  const answers = ['1', 'h', '', '', '', 'change an answer', 'a state: h', 'o', '21', 's', '', 'r', ''];
  const open = await asked(...answers, 'write it');
  expect(open.text).toContain('a: { state: open, top: 21, top-found: seen, tool: ruler }');
  const healed = await asked('1', 'o', '21', 's', '', 'r', '', '', '', '', 'change an answer', 'a state: o', 'h', 'write it'); // prettier-ignore
  expect(healed.text).toContain('a: { state: healed }');
});

test('at the last look one can leave, and nothing is written', async () => {
  const run = await asked('1', 'o', '', '', '', '', '', '', 'leave, write nothing');
  expect(run).toMatchObject({ code: 2, text: files[file] });
});

test('what an answer makes wrong of another: one of the two is asked again, none else', async () => {
  const { code, said, text } = await asked('1', 'o', '33', 's', '20', 'a wall: 20', '43', 'r', '', '', '', '', 'write it'); // prettier-ignore
  expect(code, said.join('\n')).toBe(0);
  expect(ofA(said, 'top, mm')).toHaveLength(1);
  expect(ofA(said, 'wall, mm')).toHaveLength(2);
  expect(text).toContain('top: 33, top-found: seen, wall: 43');
});

test('a doubted answer is asked again alone', async () => {
  const { said, text } = await asked('1', 'o', '2.1', 'answer it again', '22', 's', '', 'r', '', '', '', '', 'write it'); // prettier-ignore
  expect(said).toContain('2.1 mm? 21 would fit.');
  expect(said.filter((one) => one === walk)).toHaveLength(1);
  expect(text).toContain('top: 22');
});

test('what may be two things is asked', async () => {
  const day = await asked('1', 'o', '', '', '', '', '3/4', '3 April 2026', '', 'write it');
  expect(day.said).toContain('`3/4` may be 2026-04-03 or 2026-03-04, expected the one that is meant');
  expect(day.text).toContain('recheck: 2026-04-03');
  const { text, said } = await asked('1', 'o', '', '', '', '', '', '+', 'les', 'crack', 'vertical horn fissure', 'lh', 'lateral', '', '', 'o', '', '', '', '', '', 'write it'); // prettier-ignore
  expect(text, said.join('\n')).toContain('b: { code: HFV, foot: LH, claw: outer }');
});

test('pain relief is asked after where she is lame, and only there', async () => {
  const lame = await asked('2', 'o', '', '', '', '', 'asked', '', '', 'write it');
  expect(lame.text).toContain('pain-relief: asked');
  const sound = await asked('1', 'o', '', '', '', '', '', '', 'write it');
  expect([...sound.said].filter((one) => one.startsWith('Pain relief'))).toEqual([]);
});

test('who leaves is shown what was answered, so that it need not be typed again', async () => {
  const { err, code, text } = await asked('1', 'o', '21');
  expect({ code, text }).toEqual({ code: 2, text: files[file] });
  expect(err).toMatch(/nothing was written; what was answered[^]*a: \{ state: open, top: 21 \}/);
});

test('none, and a stroke, leave an answer out', async () => {
  const { text, said } = await asked('1', 'o', '-', '', 'none', 'no', '', '', 'write it');
  expect(said.filter((one) => one.startsWith('✗'))).toEqual([]);
  expect(text).toContain('gait: 1\n    found:\n      a: { state: open }\n---');
});
