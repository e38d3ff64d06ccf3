import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import {
  nodeArchiveDisk,
  type DiskCalls,
  type Machine,
  nodeCalls,
  nodeDisk,
} from '../../src/cli/node-disk.js';
import { runCommand } from '../../src/cli/run-command.js';
import { holdPicture, keepEntry } from '../../src/keep/inbox/take-entry.js';
import { readLedger } from '../../src/ledger/read-ledger.js';
import { animalFile, farmFile, filesFrom, type Run } from '../cli/run-in-folder.js';

/** How a command is stopped at one call of the disk. `ENOSPC` stays: every later call that needs room fails too. */
export type Stop = 'killed' | 'ENOSPC' | 'EACCES' | 'EMFILE' | 'EIO';
export const failures = ['ENOSPC', 'EACCES', 'EMFILE', 'EIO'] as const satisfies readonly Stop[];

/** Changing calls of the disk, counted; the n-th and, of a killed program, all later ones do not happen. */
export function stoppedAt(
  at: number,
  stop: Stop,
): { readonly calls: DiskCalls; readonly count: () => number } {
  let count = 0;
  const room = ['open', 'write', 'sync', 'makeFolder'];
  const stops = (name: string): boolean => {
    count += 1;
    if (stop === 'killed') return count >= at;
    return count === at || (stop === 'ENOSPC' && count > at && room.includes(name));
  };
  const trouble = (path?: string) =>
    Object.assign(new Error(stop), { code: stop, ...(path === undefined ? {} : { path }) });
  const counted =
    <A extends readonly unknown[], T>(name: string, call: (...args: A) => T) =>
    (...args: A): T => {
      if (stops(name)) throw trouble(typeof args[0] === 'string' ? args[0] : undefined);
      return call(...args);
    };
  const calls: DiskCalls = {
    open: counted('open', nodeCalls.open),
    // A write is broken off in its middle.
    write: (file, bytes, from) => {
      if (!stops('write')) return nodeCalls.write(file, bytes, from);
      if (count === at) nodeCalls.write(file, bytes.subarray(0, from + (bytes.length - from) / 2), from);
      throw trouble();
    },
    // What power cuts lose is not tried here, and waiting for a real disk takes most of the time.
    sync: counted('sync', () => undefined),
    close: nodeCalls.close,
    rename: counted('rename', nodeCalls.rename),
    remove: counted('remove', nodeCalls.remove),
    makeFolder: counted('makeFolder', nodeCalls.makeFolder),
    removeFolder: counted('removeFolder', nodeCalls.removeFolder),
  };
  return { calls, count: () => count };
}

const unstopped = (): ReturnType<typeof stoppedAt> => stoppedAt(Number.POSITIVE_INFINITY, 'EIO');

let lastPid = 50_000_000;

/** One program, run in a folder: whatever ran before has ended. */
export async function growdown(
  folder: string,
  words: readonly string[],
  stopped = unstopped(),
): Promise<Run> {
  lastPid += 1;
  const pid = lastPid;
  const machine: Machine = {
    calls: stopped.calls,
    process: { pid, host: hostname(), isRunning: (other) => other === pid },
  };
  let [out, err] = ['', ''];
  const files = filesFrom(folder);
  const disk = nodeDisk(folder, files, () => '2026-06-16', machine);
  const code = await runCommand(words, {
    folder,
    today: () => '2026-06-16',
    files,
    writeFile: disk.replace,
    disk,
    bags: nodeArchiveDisk(folder, machine),
    browser: () => ({ missing: 'none-installed' }),
    readInput: () => new Uint8Array(),
    dialogue: undefined,
    print: (text) => void (out += text),
    warn: (text) => void (err += text),
    terminalWidth: undefined,
  });
  return { code, out, err };
}

/** A command to be stopped, and what is done before it. */
export interface Tried {
  readonly name: string;
  readonly words: readonly string[];
  /** `undo` takes it back. */
  readonly undone?: true;
  readonly before?: (folder: string) => void | Promise<void>;
  /** It writes several entries one by one, each whole: these write only one of them. */
  readonly parts?: readonly (readonly string[])[];
}

const by = ['--by', 'Orla Venn'];
export const undo = ['undo', 'quernholt', '--why', 'a slip', ...by];
const cow = 'quernholt/2086';
const jpeg = (salt: number): Uint8Array => new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, salt]);
const form = '00000000-0000-4000-8000-000000000001';
const note =
  'Quernholt 15 June 2026\n2086 LH outer: top 21, wall 43, tape, seen. mobility 1. look again 4 weeks.\n2087 LH outer: top 21, wall 43, tape, seen. mobility 1. look again 4 weeks.\n';
const list = 'Ear No;Official;Breed\r\n2086;UK 000123 402086;Holstein\r\n2087;UK 000123 402087;Jersey\r\n';

/** A visit from the yard with two pictures waits in the inbox. */
function sent(folder: string): void {
  const farm = join(folder, 'cases/quernholt');
  const disk = nodeDisk(folder, filesFrom(folder));
  const shows = { foot: 'LH', claw: 'outer', view: 'sole' } as const;
  keepEntry(disk, farm, {
    form,
    on: '2026-06-16',
    animal: '2086',
    visit: { date: '2026-06-16', by: 'Orla Venn', kind: 'recheck', gait: 1 },
    declares: {},
    pictures: [1, 2].map((salt) => ({ ...holdPicture(disk, farm, form, jpeg(salt)), shows })),
  });
}

/** The last visit shows a picture. */
async function photographed(folder: string): Promise<void> {
  const done = await growdown(folder, ['photo', cow, 'sole.jpg', '--foot', 'LH', '--view', 'sole']);
  expect(done).toMatchObject({ code: 0 });
}

export const tried: readonly Tried[] = [
  { name: 'visit', words: ['visit', cow, '--date', '2026-06-02', ...by, '--gait', '1'], undone: true },
  {
    name: 'correct',
    words: ['correct', cow, '2026-05-05.gait', '2', '--why', 'a slip', ...by],
    undone: true,
  },
  {
    name: 'take (note)',
    words: ['take', 'note.txt'],
    parts: [
      ['take', 'first.txt'],
      ['take', 'second.txt'],
    ],
  },
  {
    name: 'correct (taken out)',
    words: ['correct', cow, '--take-out', '2026-05-05', '--why', 'a slip', ...by],
    undone: true,
  },
  { name: 'correct (business)', words: ['correct', 'business', 'phone', '01632 960222'] },
  {
    name: 'move-visit (day)',
    words: ['move-visit', cow, '2026-05-05', '2026-01-02', '--why', 'a slip', ...by],
    before: photographed,
    undone: true,
  },
  {
    name: 'move-visit (farm)',
    words: ['move-visit', cow, '2026-05-05', 'harrowmere/11', '--why', 'a slip', ...by],
    before: photographed,
    undone: true,
  },
  { name: 'undo (further back)', words: ['undo', 'quernholt', '1', '--why', 'a slip', ...by] },
  {
    name: 'undo (inbox)',
    words: undo,
    before: async (folder) => {
      sent(folder);
      expect(await growdown(folder, ['take'])).toMatchObject({ code: 0 });
    },
  },
  {
    name: 'take (inbox)',
    words: ['take'],
    before: sent,
  },
  { name: 'undo', words: undo },
  { name: 'move', words: ['move', cow, 'harrowmere'], undone: true },
  { name: 'photo', words: ['photo', cow, 'sole.jpg', '--foot', 'LH', '--view', 'sole'], undone: true },
  {
    name: 'seal',
    words: ['seal'],
    before: (folder) => {
      const file = join(folder, 'cases/quernholt/2086.md');
      const text = readFileSync(file, 'utf8');
      writeFileSync(file, text.replace('\n---\n\nInv', '\n  - { date: 2026-06-09, by: Orla Venn, kind: report, note: lame }\n---\n\nInv')); // prettier-ignore
    },
  },
  {
    name: 'import',
    words: ['import', 'herd.csv', '--farm', 'quernholt', '--map', 'Ear No=animal', '--map', 'Official=tag'],
    undone: true,
  },
  { name: 'farm', words: ['farm', 'alderfold'] },
  { name: 'books', words: ['books'] },
  { name: 'archive', words: ['archive', '--zip', '--no-pdf'] },
  { name: 'post', words: ['post', 'quernholt'] },
];

const mailed = { contact: 'contact: { name: Nan Brockle, email: "nan@quernholt.example" }\n' };

/** Two farms, two cows, all sealed; the last entry on Quernholt is a visit to each cow. */
export async function practice({ before }: Tried): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-'));
  const write = (name: string, content: string | Uint8Array) =>
    nodeDisk(folder, filesFrom(folder)).replace(name, content);
  write('cases/business.md', '---\nbusiness: Quillfen Foot Trimming\ntrimmer: Orla Venn\nemail: office@quillfen.example\n---\n'); // prettier-ignore
  write('cases/quernholt/farm.md', farmFile.replace('hemisphere', `${mailed.contact}hemisphere`));
  write('cases/quernholt/2086.md', animalFile('2086'));
  write('cases/quernholt/2087.md', animalFile('2087'));
  write('cases/harrowmere/farm.md', farmFile.replace('Quernholt', 'Harrowmere'));
  write('cases/harrowmere/11.md', animalFile('11'));
  write('note.txt', note);
  write('first.txt', note.replace(/2087.*\n/, ''));
  write('second.txt', note.replace(/2086.*\n/, ''));
  write('herd.csv', list);
  write('sole.jpg', jpeg(9));
  for (const words of [
    ['seal'],
    ['visit', 'quernholt/2087', '--date', '2026-05-05', ...by, '--gait', '1'],
    ['visit', cow, '--date', '2026-05-05', ...by, '--gait', '1'],
  ])
    expect(await growdown(folder, words), words.join(' ')).toMatchObject({ code: 0 });
  await before?.(folder);
  return folder;
}

/** What may lie there and is no record: the ledger is asked otherwise, and memories may be those of a later run. */
const aside = /(?:ledger|taken)\.jsonl$|undo\/|calendar\.json$|import-maps\//;

/** All that lies in a folder, by path, but what may be deleted at any time. */
function lying(folder: string): Map<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  return new Map(
    files
      .map(({ parentPath, name }) => join(parentPath, name))
      .filter((path) => !path.includes(join('.growdown', 'cache')))
      .toSorted()
      .map((path) => [path.slice(folder.length + 1), readFileSync(path, 'latin1')]),
  );
}

const records = (files: ReadonlyMap<string, string>): string =>
  JSON.stringify([...files].filter(([path]) => !aside.test(path)));

/** The folder as a reader sees it, and as it is after the command: nothing is wrong in either. */
function read(folder: string): string {
  const files = filesFrom(folder);
  const { practice: all, problems } = readPractice(files, 'cases', {
    today: '2026-06-16',
    pictures: 'hashed',
  });
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return JSON.stringify(all.farms.map(({ slug, farm, cases }) => [slug, farm, cases.map(({ animal }) => animal)])); // prettier-ignore
}

function chainsAreWhole(folder: string): void {
  for (const [path, text] of lying(folder))
    if (path.endsWith('ledger.jsonl'))
      expect(readLedger(Buffer.from(text, 'latin1').toString()).faults, path).toEqual([]);
}

/** A command to try, with the folder before it and after it. */
export interface Ready {
  readonly one: Tried;
  readonly folder: string;
  readonly count: number;
  readonly old: State;
  readonly whole: State;
  /** Both, and what is whole between them. */
  readonly sound: readonly State[];
}

interface State {
  readonly records: string;
  readonly read: string;
  readonly paths: ReadonlySet<string>;
}

export async function readyFor(one: Tried): Promise<Ready> {
  const folder = await practice(one);
  const state = (at: string): State => {
    const files = lying(at);
    return { records: records(files), read: read(at), paths: new Set(files.keys()) };
  };
  const old = state(folder);
  const counting = unstopped();
  const there = copyOf(folder);
  const done = await growdown(there, one.words, counting);
  expect(done, one.name).toMatchObject({ code: 0 });
  const whole = state(there);
  expect(records(lying(there)) === old.records, one.name).toBe(one.name === 'seal');
  rmSync(there, { recursive: true });
  const sound = [old, whole];
  for (const part of one.parts ?? []) {
    const between = copyOf(folder);
    expect(await growdown(between, part), one.name).toMatchObject({ code: 0 });
    sound.push(state(between));
    rmSync(between, { recursive: true });
  }
  return { one, folder, count: counting.count(), old, whole, sound };
}

export function copyOf(folder: string): string {
  const there = mkdtempSync(join(tmpdir(), 'growdown-'));
  cpSync(folder, there, { recursive: true });
  return there;
}

/** Commands that write no case file have nothing to be taken back: doing it again is the repair. */
export const mends = ({ name, words }: Tried): readonly (readonly string[])[] => {
  if (name === 'import') return [words, ['seal']];
  return ['books', 'archive', 'post', 'farm', 'correct (business)'].includes(name) ? [words] : [['seal']];
};

/**
 * After a command was stopped: it is read as before or as after; the next command works within two seconds, also where
 * one before it was killed too; then nothing is left behind, and doing it again, and taking it back, come out as ever.
 */
export async function mended(ready: Ready, there: string, again?: number, slow = false): Promise<void> {
  const { one, old, whole, sound } = ready;
  const seen = sound.map((state) => state.read);
  expect(seen).toContain(read(there));
  if (again !== undefined) {
    await growdown(there, mends(one)[0]!, stoppedAt(again, 'killed'));
    expect(seen).toContain(read(there));
  }
  for (const words of mends(one)) {
    const begun = performance.now();
    const next = await growdown(there, words);
    expect(performance.now() - begun).toBeLessThan(2000);
    const isThere = /already exists|business\.md already/.test(next.err);
    if (!isThere) expect(next, next.err).toMatchObject({ code: 0 });
  }
  chainsAreWhole(there);
  const now = lying(there);
  expect(sound.map((state) => state.records)).toContain(records(now));
  for (const path of now.keys()) expect(old.paths.has(path) || whole.paths.has(path), path).toBe(true);
  if (!slow || !one.undone) return;
  if (records(now) === old.records) expect(await growdown(there, one.words)).toMatchObject({ code: 0 });
  expect(records(lying(there))).toBe(whole.records);
  expect(await growdown(there, undo)).toMatchObject({ code: 0 });
  expect(records(lying(there))).toBe(old.records);
  expect(read(there)).toBe(old.read);
}

/** Stops a command at one call and looks at what came of it. */
export async function stopAndMend(
  ready: Ready,
  at: number,
  stop: Stop,
  { again, slow = false }: { readonly again?: number; readonly slow?: boolean } = {},
): Promise<void> {
  const there = copyOf(ready.folder);
  try {
    const done = await growdown(there, ready.one.words, stoppedAt(at, stop));
    if (stop !== 'killed') {
      expect(done.err).not.toMatch(/a fault in this program|\n\s+at /);
      expect([0, 1, 2]).toContain(done.code);
      const isWhole = read(there) === ready.whole.read && ready.whole.read !== ready.old.read;
      // A note of several is added one by one, and each is reported.
      if (!ready.one.parts && ready.whole.read !== ready.old.read)
        expect({ said: done.code === 0, err: done.err }).toEqual({ said: isWhole, err: done.err });
    }
    await mended(ready, there, again, slow);
  } finally {
    rmSync(there, { recursive: true, force: true });
  }
}

/** Tries every so many calls of a command; what went wrong at which, all of it at once. */
export async function everyStep(
  { count }: Ready,
  nth: number,
  step: (at: number) => Promise<void>,
): Promise<string[]> {
  const wrong: string[] = [];
  for (let at = 1; at <= count; at += nth)
    try {
      await step(at);
    } catch (error) {
      wrong.push(`call ${at} of ${count}: ${String(error).slice(0, 600)}`);
    }
  return wrong;
}
