import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { expect, test } from 'vitest';
import { lesionKinds } from '../../src/reference/lesions.js';
import { animal, episode } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';
import {
  found,
  blockEvent,
  footFinding,
  photo,
  productUse,
  visit,
  wrapEvent,
} from '../../src/record/visit.js';
import { lesion, mark } from '../../src/record/lesion.js';
import { amendment } from '../../src/record/measures.js';
import * as words from '../../src/record/words.js';
import { folderWith } from '../cli/run-in-folder.js';

const readmePath = fileURLToPath(new URL('../../README.md', import.meta.url));
const readme = readFileSync(readmePath, 'utf8');

/** The files the README shows, by the name above each. */
const shown = Object.fromEntries(
  [...readme.matchAll(/^`(cases\/[^`]+\.md)`\n\n```\n([^]*?\n)```$/gm)].map(([, name, text]) => [
    name!,
    text!,
  ]),
);

test('the files shown are read, checked and made into a book without a word', async () => {
  expect(Object.keys(shown).map((name) => name.split('/').at(-1))).toEqual(['farm.md', '2086.md', '2117.md']);
  const { folder, growdown } = folderWith(shown);
  const run = await growdown('books', '--today', '2026-02-10');
  expect(run).toMatchObject({ code: 0, err: '' });
  const check = JSON.parse((await growdown('check', '--json', '--today', '2026-02-10')).out) as {
    id: string;
  }[];
  expect(check.filter(({ id }) => !id.startsWith('gap/'))).toEqual([]);
  expect(readFileSync(join(folder, 'books/quernholt.html'), 'utf8')).toContain('sole ulcer');
});

const rows: Readonly<Record<string, readonly string[]>> = {
  'foot · claw': [...words.feet, ...words.claws],
  site: words.sites,
  line: words.wallLines,
  state: words.lesionStates,
  stage: words.ddStages,
  'top-found': words.topFoundWords,
  'tool · wall-tool': words.tools,
  'wall-at': ['beside'],
  signs: words.signs,
  'signs (of a visit)': words.animalSigns,
  kind: words.visitKinds,
  'event (blocks, wraps)': words.fixtureEvents,
  'carrying-claw': words.carryingClawWords,
  material: words.blockMaterials,
  class: words.productClasses,
  'pain-relief': words.painReliefWords,
  what: words.farmTasks,
  view: words.photoViews,
  when: words.photoMoments,
  result: words.episodeResults,
  'gait-scale': words.gaitScales,
  'condition-scale': words.conditionScales,
  housing: words.housings,
  hemisphere: words.hemispheres,
  language: words.languages,
  paper: words.papers,
  'staff-languages': words.staffLanguages,
  send: words.sendForms,
  form: words.copperForms,
};

const codes = words.lesionCodes.map((code) => `\`${code}\` ${lesionKinds[code].name}`).join(', ');
const wordTable = [
  '| key | words |',
  '| --- | --- |',
  `| code | ${codes} |`,
  ...Object.entries(rows).map(([key, list]) => `| ${key} | ${list.map((word) => `\`${word}\``).join(' ')} |`),
].join('\n');

const keyTable = [
  '| in | keys |',
  '| --- | --- |',
  ...Object.entries({
    'an animal': animal,
    'an episode': episode,
    'a lesion': lesion,
    'a mark': mark,
    'a visit': visit,
    '`found`, of a lesion or mark': found,
    '`feet`, of a foot': footFinding,
    'a block': blockEvent,
    'a wrap': wrapEvent,
    'a product': productUse,
    'a picture': photo,
    'an amendment': amendment,
    'the farm': farm,
    'the business': business,
  }).map(
    ([where, schema]) =>
      `| ${where} | ${Object.keys(schema.shape)
        .map((key) => `\`${key}\``)
        .join(' ')} |`,
  ),
].join('\n');

/** The README with one of its tables, which stands between two marks, made anew. */
function withTable(text: string, name: string, table: string): string {
  const place = new RegExp(`(<!-- ${name} -->\n\n)[^]*?(\n\n<!-- /${name} -->)`);
  expect(text).toMatch(place);
  return text.replace(place, (_, before: string, after: string) => before + table + after);
}

test('its lists of words and of keys are those of the record model; `vitest -u` writes them anew', async () => {
  const made = withTable(withTable(readme, 'words', wordTable), 'keys', keyTable);
  const options = { ...(await resolveConfig(readmePath)), parser: 'markdown' };
  await expect(await format(made, options)).toMatchFileSnapshot(readmePath);
});

test('every command of the program stands in the README, and every picture it shows is there', async () => {
  const help = (await folderWith({}).growdown('--help')).out;
  const commands = [...help.matchAll(/^ {2}([a-z]+) /gm)]
    .map((match) => match[1]!)
    .filter((name) => name !== 'help');
  expect(commands.length).toBeGreaterThan(2);
  for (const command of commands) expect(readme).toContain(`\`growdown ${command}`);
  const pictures = [...readme.matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)].map((match) => match[1]!);
  for (const picture of pictures)
    expect(readFileSync(new URL(`../../${picture}`, import.meta.url)).length).toBeGreaterThan(1000);
});
