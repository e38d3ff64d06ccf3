import { expect, test } from 'vitest';
import { readNote } from '../../src/note/read-note.js';
import { folderWith } from '../cli/run-in-folder.js';
import { blocksOf, shownFiles, topicTexts } from '../guide/shown.js';
import { noteContext } from './two-farms.js';

const section = topicTexts['notes']!;
const blocks = blocksOf(section);
const [, grammar = ''] = /<!-- grammar -->([^]*?)<!-- \/grammar -->/.exec(section) ?? [];
const rows = grammar
  .split('\n')
  .filter((line) => line.startsWith('| ') && !line.includes('---') && !line.includes('for example'));
const fragments = rows.flatMap((row) => [...row.matchAll(/`([^`]+)`/g)].map((match) => match[1]!));

test('the notes shown are taken, one after the other, with the files shown', async () => {
  const { put, growdown } = folderWith({
    ...shownFiles,
    'cases/business.md': '---\ntrimmer: Your Name\n---\n',
  });
  expect(blocks).toHaveLength(2);
  for (const [at, day] of ['2026-03-03', '2026-03-31'].entries()) {
    put('note.txt', blocks[at]!);
    const run = await growdown('take', 'note.txt', '--today', day);
    expect(run.code, run.out + run.err).toBe(0);
    expect(run.out.match(/^ {2}added$/gm)).toHaveLength(at === 0 ? 2 : 1);
    const not = [...run.out.matchAll(/“(.*)” ✗/g)].map((match) => match[1]);
    expect(not).toEqual(at === 0 ? ['Quiet in the crush'] : []);
  }
});

test('there are examples of the grammar', () => {
  expect(fragments.length).toBeGreaterThan(70);
});

test.each(fragments)('understood whole and certain: %s', (fragment) => {
  const kind = /first visit|routine|report|missed/.test(fragment) ? '' : 'recheck visit. ';
  const { animals } = readNote(
    `Quernholt 15 June 2026\n2200 ${kind}lesion a: ${fragment}`,
    noteContext('2026-06-16'),
  );
  const [only, ...more] = animals;
  expect(more).toEqual([]);
  expect(only!.pieces.filter(({ as }) => as === undefined).map(({ text }) => text)).toEqual([]);
  const open = only!.questions.filter(
    ({ id }) => id !== 'no-state' && id !== 'nothing-said' && id !== 'no-stage',
  );
  expect(open.map(({ id, text }) => `${id}: ${text}`)).toEqual([]);
});
