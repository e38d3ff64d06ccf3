import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Dialogue } from '../../src/run/dialogue.js';
import { farmFile, folderWith } from './run-in-folder.js';

const name = 'cases/quernholt/2086.md';
const text = (visits: string) => `---\ncasefile: 1\nanimal: "2086"\nlesions: {}\nvisits:\n${visits}---\n`;
const blocked = text(
  '  - { date: 2026-01-06, by: Orla Venn, kind: first, gait: 2, blocks: [{ foot: LH, claw: inner, event: fitted }] }\n',
);
const sound = text('  - { date: 2026-01-06, by: Orla Venn, kind: first, gait: 0 }\n');
const files = (animal: string) => ({
  'cases/quernholt/farm.md': farmFile,
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  [name]: animal,
});
const who = (answer: string | undefined): { dialogue: Dialogue; said: string[] } => {
  const said: string[] = [];
  const say = async (question: string) => (said.push(question), answer);
  return { dialogue: { show: (shown) => void said.push(shown), line: say, choose: say }, said };
};

test.each([
  ['close', ['--result', 'recovered, not lame'], /block of 6 January 2026 on the left hind, inner claw is not recorded as taken off/],
  ['close', ['--result', 'sound'], /her last score was 2, on 6 January 2026; sound is 0/],
  ['close', ['--result', 'sold'], /She has left the farm, and the block/],
  ['move', ['harrowmere'], /She has left the farm, and the block/],
] as const)('%s %j with a block on: refused without a terminal, written with --even-so, and the check says so', async (command, words, said) => {
  const { folder, growdown } = folderWith(files(blocked));
  const refused = await growdown(command, 'quernholt/2086', ...words);
  expect(refused).toMatchObject({ code: 1 });
  expect(refused.err).toMatch(said);
  expect(readFileSync(join(folder, name), 'utf8')).toBe(blocked);
  expect(await growdown(command, 'quernholt/2086', ...words, '--even-so')).toMatchObject({ code: 0 });
  expect(readFileSync(join(folder, name), 'utf8')).toContain('ended: 2026-06-16');
  const checked = await growdown('check');
  expect(checked).toMatchObject({ code: 0 });
  expect(checked.err).toMatch(said);
}); // prettier-ignore

test('somebody at a terminal is asked: no leaves all as it was, yes writes', async () => {
  for (const [answer, code] of [['no', 1], [undefined, 1], ['yes', 0]] as const) {
    const { dialogue, said } = who(answer);
    const { folder, growdown } = folderWith(files(blocked), { dialogue });
    const done = await growdown('close', 'quernholt/2086', '--result', 'culled');
    expect(done).toMatchObject({ code });
    expect(done.err).toMatch(/is not recorded as taken off/);
    expect(said).toEqual(['is this right as it is?']);
    expect(readFileSync(join(folder, name), 'utf8') === blocked).toBe(code === 1);
  }
}); // prettier-ignore

test('a sound cow with nothing on is closed without a question, and so is one that died with a block on', async () => {
  for (const [animal, result] of [[sound, 'sound'], [blocked, 'died']] as const) {
    const { dialogue, said } = who('no');
    const { growdown } = folderWith(files(animal), { dialogue });
    expect(await growdown('close', 'quernholt/2086', '--result', result)).toMatchObject({ code: 0 });
    expect(said).toEqual([]);
    expect((await growdown('check')).err).not.toMatch(/recorded off|as sound/);
  }
}); // prettier-ignore

test('a file closed as sound long ago goes on reading, with a warning', async () => {
  const old = blocked.replace('lesions:', 'episodes: [{ ended: 2026-05-01, result: sound }]\nlesions:');
  const { growdown } = folderWith(files(old));
  const { code, err } = await growdown('check');
  expect(code).toBe(0);
  expect(err).toMatch(/warning gap\/sound-not-shown: Closed as sound on 1 May 2026/);
  expect(err).toMatch(/warning gap\/closed-with-block-on/);
});
