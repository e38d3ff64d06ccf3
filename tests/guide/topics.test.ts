import { existsSync, readFileSync } from 'node:fs';
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
import { guideFacts, topicNames } from '../../src/guide/topics.js';
import { folderWith } from '../cli/run-in-folder.js';
import { readme, shownFiles, topicFiles, topicTexts } from './shown.js';

test('the files shown are read, checked and made into a book without a word', async () => {
  expect(new Set(Object.keys(shownFiles))).toEqual(new Set(['2086.md', '2117.md', 'farm.md'].map((name) => `cases/quernholt/${name}`))); // prettier-ignore
  const { folder, growdown } = folderWith(shownFiles);
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

/** What `--help` says of each command, in its order. */
async function commandTable(): Promise<string> {
  const help = (await folderWith({}, { terminalWidth: 1000 }).growdown('--help')).out;
  const commands = [...help.matchAll(/^ {2}([a-z-]+)(?: \S+)*? {2,}(.+)$/gm)].filter(
    ([, name]) => topicTexts[name!] === undefined && !name!.startsWith('-'),
  );
  const lines = commands.map(([, name, about]) => `| \`growdown ${name}\` | ${about} |`);
  return ['| command | what it does |', '| --- | --- |', ...lines].join('\n');
}

test.each([
  ['words', () => wordTable],
  ['keys', () => keyTable],
  ['commands', commandTable],
] as const)('the list in %s is that of the program; `vitest -u` writes it anew', async (name, table) => {
  const file = fileURLToPath(new URL(`../../shared/guide/${name}.md`, import.meta.url));
  const place = new RegExp(`(<!-- ${name} -->\n\n)[^]*?(\n\n<!-- /${name} -->)`);
  expect(topicTexts[name]).toMatch(place);
  const lines = await table();
  const made = topicTexts[name]!.replace(place, (_, before: string, after: string) => before + lines + after);
  await expect(await format(made, { ...(await resolveConfig(file)), parser: 'markdown' })).toMatchFileSnapshot(file); // prettier-ignore
});

test('README is at most 2,200 words, names every topic, and what it and the topics link to is there', () => {
  expect(readme.trim().split(/\s+/).length).toBeLessThanOrEqual(2200);
  expect(topicNames.map((name) => `${name}.md`).sort()).toEqual(topicFiles);
  for (const name of topicNames) expect(readme).toContain(`(shared/guide/${name}.md)`);
  for (const [text, from] of [
    [readme, '../../'],
    ...Object.values(topicTexts).map((topic) => [topic, '../../shared/guide/']),
  ] as const)
    for (const [, to] of text.matchAll(/\]\(([^)\s]+)(?: "[^"]*")?\)/g)) {
      if (to!.startsWith('#'))
        expect(text.toLowerCase()).toMatch(new RegExp(`^#+ ${to!.slice(1).replaceAll('-', '[ -]')}$`, 'm'));
      else if (!to!.startsWith('https:'))
        expect(existsSync(new URL(from + to!, import.meta.url)), to).toBe(true);
    }
});

test('every command is in one group of the help and has a topic, and no topic has the name of a command', async () => {
  const { growdown } = folderWith({});
  const help = (await growdown('--help')).out;
  expect(help.indexOf('Start here:')).toBeLessThan(help.indexOf('\n  business'));
  expect(help).not.toContain('\nCommands:');
  const grouped = Object.values(guideFacts.commands).flat();
  expect(new Set(grouped).size).toBe(grouped.length);
  for (const name of grouped) {
    expect(topicNames).not.toContain(name);
    const { code, out } = await growdown(name, '-h');
    expect({ name, code }).toEqual({ name, code: 0 });
    if (name === 'help' || name === 'guide') continue;
    expect(topicNames).toContain(guideFacts.more[name]);
    expect(out).toContain(`More: \`growdown help ${guideFacts.more[name]}\``);
    expect((await growdown('help', name)).out).toBe(out);
  }
  expect(Object.keys(guideFacts.more).filter((name) => !grouped.includes(name))).toEqual([]);
});

test('a topic is printed plain, in 80 columns; a wrong name is reported with the nearest', async () => {
  const { growdown } = folderWith({});
  expect((await growdown('help')).out).toContain('measuring  How to measure');
  for (const name of topicNames) {
    const { code, out } = await growdown('help', name);
    expect(code).toBe(0);
    expect(out, name).not.toMatch(/\]\(|\*\*|^#|<!--|\u2022|^\|/m);
    const long = out.split('\n').filter((line) => line.length > 80 && line.trim().includes(' '));
    expect(long, name).toEqual([]);
  }
  const measuring = (await growdown('help', 'measuring')).out;
  expect(measuring).toContain('HOW TO MEASURE');
  expect(measuring).toContain('- Zero is where a thumbnail');
  expect(await growdown('help', 'measurin')).toMatchObject({ code: 2, err: expect.stringContaining('did you mean `measuring`?') }); // prettier-ignore
  expect(await growdown('help', 'zzzz')).toMatchObject({ code: 2, err: expect.stringContaining('lists them') }); // prettier-ignore
});

const problemRows = [
  ...topicTexts['problems']!.matchAll(/^\| `([a-z]+\/[a-z-]+)` +\| `([^`]+)` +\| `([^`]+)` +\|$/gm),
].map(([, id, wrong, right]) => ({ id: id!, wrong: wrong!, right: right! }));

test('twenty problems are reported', () => {
  const told = topicTexts['problems']!.match(/^\*\*/gm)!.length;
  expect(problemRows.length + told).toBe(20);
});

test.each(problemRows)('$wrong is told as $id; $right is not', async ({ id, wrong, right }) => {
  const [file] = Object.entries(shownFiles).findLast(([, text]) => text.includes(right)) ?? [''];
  const { growdown, put } = folderWith(shownFiles);
  const ids = async () =>
    (JSON.parse((await growdown('check', '--json', '--today', '2026-02-10')).out) as { id: string }[]).map((one) => one.id); // prettier-ignore
  expect(await ids()).not.toContain(id);
  put(file, shownFiles[file]!.replace(right, wrong));
  expect(await ids()).toContain(id);
});
