import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { setImmediate } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { terminalDialogue } from '../../src/cli/node-effects.js';
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

/** A terminal at which these keys are pressed, one when the last has been answered, and what it shows. */
async function pressing(files: Readonly<Record<string, string>>, words: readonly string[], keys: readonly string[]) { // prettier-ignore
  const [input, output] = [new PassThrough(), new PassThrough()];
  let shown = '';
  output.on('data', (bytes: Buffer) => (shown += bytes.toString()));
  const { folder, growdown } = folderWith(files, { dialogue: terminalDialogue(input, output) });
  let ended = false;
  const running = growdown(...words).finally(() => (ended = true));
  for (const key of keys) {
    for (let still = 0, seen = ''; still < 3 && !ended; still = shown === seen ? still + 1 : 0) {
      seen = shown;
      await new Promise((resolve) => setTimeout(resolve, 4));
    }
    if (ended) break;
    input.write(key);
    await setImmediate();
  }
  const run = await running;
  return { ...run, shown, text: () => readFileSync(join(folder, file), 'utf8') };
}

/** Each character is a key, and so is each Enter. */
const line = (typed: string): string[] => [...typed, enter];

test('a recheck where nothing is unusual: at most 40 keys', async () => {
  const keys = ['1', 'o', '21', 's', '43', 'r', '', '', '4w', ''].flatMap(line);
  const all = [...keys, enter];
  const run = await pressing(before, ['visit', '2086', '--today', '2026-02-17'], all);
  expect(run.code, run.err + run.shown).toBe(0);
  expect(run.text()).toContain(`    gait: 1
    found:
      a: { state: open, top: 21, top-found: seen, wall: 43, tool: ruler }
    recheck: 2026-03-17
`);
  expect(all.length).toBeLessThanOrEqual(40);
});
