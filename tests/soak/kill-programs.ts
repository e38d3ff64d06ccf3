import { spawnSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import { copyOf, mended, mends, type Ready, readyFor, tried } from '../keep/broken-off.js';

const program = fileURLToPath(new URL('killed-at.mjs', import.meta.url));

/** In the folder, killed at a call; 0: not at all. */
function run(folder: string, at: number, words: readonly string[]) {
  return spawnSync(process.execPath, [program, String(at), ...words], { cwd: folder, encoding: 'utf8' });
}

/** As on the day of the tests; where a farm begins no day is asked. */
const on = (words: readonly string[]): string[] =>
  words[0] === 'farm' ? [...words] : [...words, '--today', '2026-06-16'];

/** Programs that write case files: what `broken-off` does in one process, in processes that really die. */
const commands = tried.filter(({ name }) => !['books', 'archive', 'post'].includes(name));

/**
 * So many programs killed, each at another call of its command, and every other one's next command killed too; each is
 * then read, repaired and looked at as in `tests/keep/every-step.test.ts`. How many there were, by command.
 */
export async function killPrograms(kills: number): Promise<ReadonlyMap<string, number>> {
  const done = new Map<string, number>();
  for (const [i, one] of commands.entries()) {
    const each = Math.floor((kills + i) / commands.length);
    const ready: Ready = await readyFor(one);
    for (let n = 0; n < each; n += 1) {
      const at = 1 + Math.floor(((n + 0.5) * ready.count) / each);
      const there = copyOf(ready.folder);
      try {
        const killed = run(there, at, on(one.words));
        expect(killed.signal, `${one.name}, call ${at}: ${killed.stderr}`).toBe('SIGKILL');
        if (n % 2 === 1) run(there, 3 + (n % 12), on(mends(one)[0]!));
        await mended(ready, there, undefined, true);
        done.set(one.name, (done.get(one.name) ?? 0) + 1);
      } catch (error) {
        throw new Error(`${one.name}, killed at call ${at} of ${ready.count}: ${String(error)}`, {
          cause: error,
        });
      } finally {
        rmSync(there, { recursive: true, force: true });
      }
    }
    rmSync(ready.folder, { recursive: true });
  }
  return done;
}
