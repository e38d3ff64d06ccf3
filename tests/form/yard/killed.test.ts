import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { inboxEntry, readInbox } from '../../../src/keep/inbox/inbox-entry.js';
import { nodeCaseFiles } from '../../../src/casefile/node-case-files.js';
import { seededRandom } from '../../../src/statistics/seeded-random.js';
import { picture, post, visitFields, yardFolder } from './served.js';

// Only a process of its own can be killed; `npm test` compiles before it tests.
const program = fileURLToPath(new URL('../../../dist/cli/main.js', import.meta.url));

interface Running {
  readonly child: ChildProcess;
  readonly home: string;
  readonly ended: Promise<void>;
}

function started(folder: string): Promise<Running> {
  const child = spawn(process.execPath, [program, 'yard', '--port', '0', '--today', '2026-06-16'], {
    cwd: folder,
  });
  const ended = new Promise<void>((resolve) => child.on('exit', () => resolve()));
  return new Promise((resolve, reject) => {
    let said = '';
    child.stderr.on('data', (chunk: Buffer) => void (said += chunk.toString()));
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const home = /http:\/\/127\S+/.exec(said)?.[0];
      if (home) resolve({ child, home, ended });
    });
    child.on('exit', () => reject(new Error(`it ended before it served: ${said}`)));
  });
}

/** The number of a visit as the id of its form, so that a visit sent again is known for the same. */
const formOf = (n: number): string => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;

test('killed at random moments during 200 sendings: none that was acknowledged is lost, none is doubled', async () => {
  const folder = yardFolder();
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const chance = seededRandom(20261125);
  // Before which sendings a kill is set off, and how many milliseconds later it comes.
  const killAt = new Map(Array.from({ length: 9 }, () => [chance.below(200), chance.below(40)] as const));
  const tapTwice = new Set(Array.from({ length: 20 }, () => chance.below(200)));
  const acknowledged = new Map<number, string>();
  let running = await started(folder);
  onTestFinished(() => void running.child.kill('SIGKILL'));
  let kills = 0;
  let cutOff = 0;
  /** Sends until it is acknowledged, as somebody does who sees no answer: each sending waits for the program to be back. */
  const send = async (n: number): Promise<void> => {
    for (;;) {
      const { home } = running;
      try {
        const came = await post(`${home}quernholt/2086`, {
          ...visitFields(formOf(n), { by: `Orla Venn ${n}`, 'photos.0.view': n % 4 === 0 ? 'sole' : '' }),
          ...(n % 4 === 0 ? { 'photos.0.file': picture(60_000, n) } : {}),
        });
        if (came.status !== 303) throw new Error(`${came.status} ${came.text}`);
        acknowledged.set(n, String(came.headers['location']));
        return;
      } catch (error) {
        if (!(error as NodeJS.ErrnoException).code) throw error;
        cutOff += 1;
        await back;
      }
    }
  };
  let back = Promise.resolve();
  const restart = async (): Promise<void> => {
    running.child.kill('SIGKILL');
    kills += 1;
    await running.ended;
    running = await started(folder);
  };
  const numbers = Array.from({ length: 200 }, (_, n) => n);
  const phones = [0, 1, 2].map(async (phone) => {
    for (const n of numbers.filter((one) => one % 3 === phone)) {
      await back;
      const wait = killAt.get(n);
      if (wait !== undefined)
        back = Promise.all([back, new Promise((resolve) => setTimeout(resolve, wait))]).then(restart);
      await send(n);
      if (tapTwice.has(n)) await send(n);
    }
  });
  await Promise.all(phones);
  await back;
  expect(kills).toBe(killAt.size);
  expect(cutOff).toBeGreaterThan(0);

  const farm = join(folder, 'cases/quernholt');
  const inbox = readInbox(nodeCaseFiles, farm);
  const whole = readFileSync(join(farm, '.growdown/inbox/visits.jsonl'), 'utf8')
    .split('\n')
    .flatMap((line) => {
      try {
        return [inboxEntry.parse(JSON.parse(line)).id];
      } catch {
        return [];
      }
    });
  expect(acknowledged.size).toBe(200);
  expect(whole.toSorted()).toEqual(numbers.map(formOf).toSorted());
  expect(inbox.open.map(({ visit }) => String(visit['by'])).toSorted()).toEqual(
    numbers.map((n) => `Orla Venn ${n}`).toSorted(),
  );
  for (const { id, pictures } of inbox.open) {
    const n = Number(id.slice(-12));
    expect(pictures).toHaveLength(n % 4 === 0 ? 1 : 0);
    for (const { held } of pictures)
      expect(readFileSync(join(farm, '.growdown/inbox/pictures', held))).toHaveLength(60_000);
  }
}, 90_000);

test('a program told to end says what waits, and ends well', async () => {
  const folder = yardFolder();
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const { child, home } = await started(folder);
  expect((await post(`${home}quernholt/2086`, visitFields(formOf(1)))).status).toBe(303);
  let said = '';
  child.stdout?.on('data', (chunk: Buffer) => void (said += chunk.toString()));
  const code = new Promise((resolve) => child.on('exit', resolve));
  child.kill('SIGTERM');
  expect(await code).toBe(0);
  expect(said).toContain(
    'waiting in the inbox, to be taken with `growdown take`:\n  quernholt/2086, visit of 2026-06-16\n',
  );
}, 30_000);
