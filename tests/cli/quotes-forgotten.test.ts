import { describe, expect, test } from 'vitest';
import { files } from '../note/two-farms.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const sound = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };

describe('quotes that were forgotten: the command as it was meant is shown, and nothing is written', () => {
  test.each([
    ['visit 2086 --note still a bit lame', 'visit 2086 --note "still a bit lame"'],
    ['visit 2086 --note still a bit lame --gait 2', 'visit 2086 --note "still a bit lame" --gait 2'],
    ['visit --note still a bit lame 2086', 'visit 2086 --note "still a bit lame"'],
    [
      'visit quernholt/2086 --found a: open, top 21 --recheck 4 weeks',
      'visit quernholt/2086 --found "a: open, top 21" --recheck "4 weeks"',
    ],
    ['visit 2086 --date 14 June --gait 1', 'visit 2086 --date "14 June" --gait 1'],
    ['visit 2086 --note smells of $ and `pus`', "visit 2086 --note 'smells of $ and `pus`'"],
    ['take 2086 LH better', 'take "2086 LH better"'],
    ['handover 2086 --ask is the joint sound?', 'handover 2086 --ask "is the joint sound?"'],
    ['correct 2086 2026-01-06.note still a bit lame', 'correct 2086 2026-01-06.note "still a bit lame"'],
  ])('%s', async (typed, meant) => {
    const { growdown } = folderWith(sound);
    const run = await growdown(...typed.split(' '));
    expect(run).toMatchObject({ code: 2, out: '' });
    expect(run.err).toBe(`growdown: text of several words goes in quotes:\ngrowdown: growdown ${meant}\n`);
  });

  test('for a shell of Windows only double quotes, and none within', async () => {
    const { growdown } = folderWith(sound, { onWindows: true });
    const run = await growdown(...'visit 2086 --note smells of $ and "pus"'.split(' '));
    expect(run.err).toContain(`growdown visit 2086 --note "smells of $ and 'pus'"\n`);
  });

  test('what is shown does what was meant', async () => {
    const { growdown } = folderWith(sound);
    const words = ['visit', '2086', '--by', 'Orla', 'Venn', '--note', 'still', 'a', 'bit', 'lame'];
    const [, shown = ''] = /growdown: growdown (.*)\n/.exec((await growdown(...words)).err) ?? [];
    const again = shown.match(/"[^"]*"|\S+/g)!.map((word) => word.replaceAll('"', ''));
    expect(again).toEqual(['visit', '2086', '--by', 'Orla Venn', '--note', 'still a bit lame']);
    expect(await growdown(...again)).toMatchObject({ code: 0 });
  });

  test.each([
    'visit quernholt 2086 --gait 1',
    'check quernholt now',
    'costs --csv everything now',
    'visit 2086 --gaet 1 2',
  ])('a word too many elsewhere is said to be one: %s', async (typed) => {
    const { growdown } = folderWith(sound);
    const { code, err } = await growdown(...typed.split(' '));
    expect(code).toBe(2);
    expect(err).not.toContain('stands in quotes');
    expect(err).toMatch(/too many arguments|unknown option/);
  });

  test('options before and after the animal, and words that need no quotes, are no trouble', async () => {
    const { growdown } = folderWith(sound);
    for (const typed of [
      'visit --gait 1 --by Orla 2086 --even-so',
      'visit 2086 --gait=1 --by=Orla --tools-disinfected --date 2026-06-15 --even-so',
    ])
      // prettier-ignore
      expect(await growdown(...typed.split(' ')), typed).toMatchObject({ code: 0 });
  });
});

test('a note of several words is taken from the command line itself', async () => {
  const { growdown } = folderWith(files);
  const run = await growdown('take', 'Quernholt 15 June 2133 RH ulcer healed', '--dry-run');
  expect(run.code, run.err + run.out).toBe(0);
  expect(run.out).toContain('healed');
  expect((await growdown('take', 'my note.txt')).err).toContain('my note.txt');
});
