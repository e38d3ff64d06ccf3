import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { setImmediate, setTimeout } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { terminalDialogue } from '../../src/cli/node-effects.js';
import type { Dialogue } from '../../src/run/dialogue.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const enter = '\r';
const up = '\u001b[A';
const down = '\u001b[B';
const file = 'cases/quernholt/2086.md';
const before = {
  'cases/business.md': '---\ntrimmer: Orla Venn\n---\n',
  'cases/quernholt/farm.md': farmFile,
  [file]: animalFile('2086').replace(
    '---\n\nInvented',
    '    blocks:\n      - { foot: LH, claw: inner, event: fitted, material: wood }\n---\n\nInvented',
  ),
};

/** A terminal at which these keys are pressed, a row of them a question, each row once its question is there. */
async function pressing(
  keys: readonly (readonly string[])[],
  files: Readonly<Record<string, string>> = before,
) {
  const [input, output] = [new PassThrough(), new PassThrough()];
  let shown = '';
  output.on('data', (bytes: Buffer) => (shown += bytes.toString()));
  const rows = [...keys];
  const press = async (): Promise<void> => {
    const row = rows.shift() ?? ['\u0003'];
    for (const length = shown.length; shown.length === length;) await setTimeout(2);
    for (const key of row) {
      input.write(key);
      await setImmediate();
    }
  };
  const real = terminalDialogue(input, output);
  const dialogue: Dialogue = {
    ...real,
    line: async (...asked) => (await Promise.all([real.line(...asked), press()]))[0],
    choose: async (...asked) => (await Promise.all([real.choose(...asked), press()]))[0],
  };
  const { folder, growdown } = folderWith(files, { dialogue });
  const run = await growdown('visit', '2086', '--today', '2026-02-17');
  expect(run.code, run.err + shown).toBe(0);
  expect(rows).toEqual([]);
  return { text: readFileSync(join(folder, file), 'utf8'), count: keys.flat().length };
}

/** Each character is a key, and so is Enter. */
const lines = (...typed: readonly string[]): string[][] => typed.map((one) => [...one, enter]);

test('a recheck where nothing is unusual: at most 40 keys', async () => {
  const { text, count } = await pressing([
    ...lines('1', 'o', '21', 's', '43', 'r', '', '', '4w', ''),
    [enter],
  ]);
  expect(text).toContain(`    gait: 1
    found:
      a: { state: open, top: 21, top-found: seen, wall: 43, tool: ruler }
    recheck: 2026-03-17
`);
  expect(count).toBeLessThanOrEqual(40);
});

test('a recheck of two lesions with the block off: at most 40 keys', async () => {
  const two = before[file]
    .replace('visits:', '  b: { code: SU, foot: RH, claw: outer }\nvisits:')
    .replace('      a: { state', '      b: { state: open, length: 14, width: 11 }\n      a: { state');
  const answers = lines('1', 'o', '21', 's', '43', 'r', '', 'o', '12', '9', 'r', '', 'off', '4w', '');
  const { text, count } = await pressing([...answers, [enter]], { ...before, [file]: two });
  expect(text).toContain('- { foot: LH, claw: inner, event: removed }');
  expect(text).toContain('b: { state: open, width: 9, length: 12, tool: ruler }');
  expect(count).toBeLessThanOrEqual(40);
});

test('the up arrow goes back: Enter keeps what was typed, and other keys take its place', async () => {
  const { text } = await pressing([
    ...lines('1', 'o', '12'),
    [up],
    [up],
    ...lines('', '11'),
    ...lines('s', '43', 'r', '', '', '4w', ''),
    [enter],
  ]);
  expect(text).toContain('top: 11,');
});

test('at the last look an answer is changed by the keys alone', async () => {
  const { text } = await pressing([
    ...lines('1', 'o', '12', 's', '43', 'r', '', '', '4w', ''),
    [down, enter],
    [down, down, enter],
    ...lines('13'),
    [enter],
  ]);
  expect(text).toContain('top: 13,');
});

test('a recheck by a note: at most 60 keys, and nothing to ask', async () => {
  const { growdown } = folderWith(before, {});
  const note = '2086 today 21/43 ruler seen, blk off, inner ok, mob 1, 4/52';
  expect(note.length).toBeLessThanOrEqual(60);
  const run = await growdown('take', note, '--yes', '--json', '--today', '2026-02-17');
  expect(run.code, run.err).toBe(0);
  const { animals } = JSON.parse(run.out) as {
    animals: { became: string; questions: unknown[]; visit: object }[];
  };
  expect(animals[0]).toMatchObject({ became: 'added', questions: [] });
  expect(animals[0]!.visit).toMatchObject({
    gait: 1,
    found: { a: { top: 21, wall: 43, tool: 'ruler', 'top-found': 'seen' } },
    blocks: [{ event: 'removed', 'carrying-claw': 'sound' }],
    recheck: '2026-03-17',
  });
});
