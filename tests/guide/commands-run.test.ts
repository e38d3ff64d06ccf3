import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { guideFacts } from '../../src/guide/topics.js';
import { animalFile, folderWith } from '../cli/run-in-folder.js';
import { blocksOf, readme, shownFiles, topicTexts, wordsOfCommand } from './shown.js';

const commandsIn = (text: string): string[] =>
  blocksOf(text)
    .flatMap((block) => block.split('\n'))
    .filter((line) => line.startsWith('growdown '));

test('README followed to the letter from an empty folder: the first book, the next lift, the week, the end of the month', async () => {
  const { folder, growdown, put } = folderWith({});
  const lines = commandsIn(readme);
  const first = lines.indexOf('growdown books') + 1;
  const week = lines.findIndex((line) => line.startsWith('growdown correct'));
  const follow = async (some: readonly string[], today: string) => {
    for (const line of some) {
      const run = await growdown(...wordsOfCommand(line), '--today', today);
      // Where nobody sits at a terminal the questions cannot be asked.
      expect({ line, code: run.code, err: run.err }).toMatchObject({
        code: /^growdown visit \S+$/.test(line) ? 2 : 0,
      });
    }
  };
  expect(lines.slice(0, first)).toHaveLength(4);
  await follow(lines.slice(0, first), '2026-01-20');
  const html = readFileSync(join(folder, 'books/quernholt.html'), 'utf8');
  expect(html).toContain('2086');
  put(
    'note.txt',
    blocksOf(readme).find((block) => block.includes('2086 LH'))!,
  );
  await follow(lines.slice(first, week), '2026-02-17');
  const evening = lines.findIndex((line) => line.startsWith('growdown take'));
  await follow(lines.slice(week, evening), '2026-03-16');
  expect(existsSync(join(folder, 'books/quernholt-sheet.html'))).toBe(true);
  await follow(lines.slice(evening), '2026-03-17');
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toContain('date: 2026-03-17');
  expect(existsSync(join(folder, 'books/quernholt.eml'))).toBe(true);
});

/** Commands that are not run here, each with the test that runs it; their flags are looked up in their help. */
const runElsewhere = new Map([
  ['growdown yard --lan', 'tests/browser/yard-form.test.ts'],
  ['growdown pdf', 'tests/pdf'],
  ['growdown post quernholt --send', 'tests/post'],
  ['growdown post --all-due --send', 'tests/post'],
]);

const business = `---
trimmer: Your Name
email: you@quillfen.example
${blocksOf(topicTexts['money']!)[0]!}---
`;
const farm = shownFiles['cases/quernholt/farm.md']!.replace(
  '\n---\n',
  '\ncontact: { name: Nan Thistlewrack, email: nan@quernholt.example }\nnext-visit: 2026-03-03\n---\n',
);

test.each(Object.keys(topicTexts).filter((name) => commandsIn(topicTexts[name]!).length > 0))(
  'every command shown under %s runs',
  async (name) => {
    const { growdown } = folderWith({
      ...shownFiles,
      'cases/business.md': business,
      'cases/quernholt/farm.md': farm,
      'cases/harrowmere/farm.md': farm.replace('Quernholt', 'Harrowmere'),
      'cases/harrowmere/31.md': animalFile('31'),
      'herd.csv': 'Ear No,Official,Calved,Sire\n2086,UK 000123 402086,2024-10-19,none\n',
      'sole.jpg': readFileSync(new URL('../../cases/quernholt/photos/1988-2026-02-03-lh-sole.jpg', import.meta.url)), // prettier-ignore
    });
    for (const line of commandsIn(topicTexts[name]!)) {
      const words = wordsOfCommand(line);
      if (runElsewhere.has(line)) {
        expect(existsSync(runElsewhere.get(line)!), line).toBe(true);
        const help = (await growdown(words[0]!, '-h')).out;
        for (const flag of words.filter((word) => word.startsWith('--'))) expect(help).toContain(flag);
        continue;
      }
      const asks = /^growdown visit \S+$/.test(line);
      const day = name === 'years' ? '2026-06-16' : words.includes('--date') ? '2026-03-03' : '2026-02-10';
      const run = await growdown(...words, ...(words[0] === 'verify' ? [] : ['--today', day]));
      expect({ line, code: run.code, err: run.err }).toMatchObject({ code: asks ? 2 : 0 });
    }
  },
  60_000,
);

test.each(
  Object.entries(guideFacts.examples).flatMap(([command, flags]) =>
    Object.entries(flags).map(([flag, example]) => ({ command, flag, example })),
  ),
)('the example of $command --$flag is taken: $example', async ({ command, flag, example }) => {
  const { growdown } = folderWith({
    ...shownFiles,
    'cases/business.md': business,
    'cases/quernholt/photos/2086-sole.jpg': readFileSync(new URL('../../cases/quernholt/photos/1988-2026-02-03-lh-sole.jpg', import.meta.url)), // prettier-ignore
  });
  const asked = flag === 'vet-answer' || flag === 'farm-did';
  const of = { visit: `quernholt/${asked ? '2117' : '2086'}`, start: 'quernholt/3001', farm: 'elsewhere' }[command]!; // prettier-ignore
  const lesion = command === 'start' && flag === 'found' ? 'a: WL, LH, outer, white line rear, line heel' : 'c: DD, RH'; // prettier-ignore
  const needs =
    command === 'farm'
      ? ['--gait-scale', 'uk-0-3', '--hemisphere', 'north', ...(flag === 'herd' ? [] : ['--herd', 'cows 9'])]
      : ['--gait', '1', ...(flag === 'lesions' ? [] : ['--lesions', lesion])];
  const found = command === 'farm' || flag === 'found' || flag === 'lesions' ? [] : ['--found', 'c: M2'];
  const run = await growdown(command, of, ...needs, ...found, `--${flag}`, example, '--dry-run', '--even-so', '--today', '2026-06-01'); // prettier-ignore
  expect({ example, code: run.code, err: run.err }).toMatchObject({ code: 0 });
  expect((await growdown(command, '-h')).out.replaceAll(/\s+/g, ' ')).toContain(`such as '${example}'`);
});
