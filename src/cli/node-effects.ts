import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';
import {
  existsSync,
  readFileSync,
  accessSync,
  chmodSync,
  constants,
  closeSync,
  fstatSync,
  openSync,
} from 'node:fs';
import { nodeCaseFiles } from '../casefile/node-case-files.js';
import { findBrowser } from '../pdf/find-browser.js';
import { nodeArchiveDisk, localToday, type Machine, nodeDisk, thisMachine } from './node-disk.js';
import { cacheIn } from './node-cache.js';
import type { Effects, WatchMachine, YardMachine, MailMachine, PrivateFile } from '../run/effects.js';
import { type Dialogue, wrapped } from '../run/dialogue.js';
import type { Readable, Writable } from 'node:stream';
import { relative, join } from 'node:path';
import { randomBytes, randomUUID } from 'node:crypto';
import { networkInterfaces, homedir } from 'node:os';
import { terminal } from '../problem/message.js';
import { signsShown } from '../record/signs.js';

const places = z.array(z.string()).min(1);

/** Where browsers that can print a book are installed, by operating system, the first choice first. */
export const browserPlaces = readShared(
  'browser-places.json',
  z.strictObject({ note: z.string(), linux: places, darwin: places, win32: places }),
);

const othersMay = 0o077;

/**
 * Reads a file that must be its user's alone. It is opened once and looked at as opened, so that what is read is what was
 * looked at.
 *
 * Windows keeps its rights in lists that Node does not show: there it is read and said to be unchecked.
 */
export function nodePrivateFile(path: string): PrivateFile {
  let file: number;
  try {
    file = openSync(path, 'r');
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    return code === 'ENOENT' ? { outcome: 'not-there' } : { outcome: 'not-readable', why: code ?? message };
  }
  try {
    const stat = fstatSync(file);
    if (!stat.isFile()) return { outcome: 'not-readable', why: terminal('file.no-file') };
    const me = process.getuid?.();
    if (me === undefined) return { outcome: 'read', text: readFileSync(file, 'utf8'), checked: false };
    if (stat.uid !== me) return { outcome: 'another-users' };
    const mode = stat.mode & 0o777;
    if ((mode & othersMay) !== 0) return { outcome: 'open-to-others', mode: mode.toString(8) };
    return { outcome: 'read', text: readFileSync(file, 'utf8'), checked: true };
  } finally {
    closeSync(file);
  }
}

/** Of this computer. The mail library is loaded when something is sent. */
export function nodeMail(): MailMachine {
  return {
    env: process.env,
    usualFile: join(settingsFolder(process.platform, process.env, homedir()), 'growdown', 'mail.txt'),
    readPrivate: nodePrivateFile,
    readText,
    send: async (server, envelope) => {
      const { nodeMailer } = await import('../post/sending/node-mailer.js');
      return nodeMailer(server, envelope);
    },
  };
}

/** Where each system keeps a user's settings. */
export function settingsFolder(
  platform: string,
  env: Readonly<Record<string, string | undefined>>,
  home: string,
): string {
  if (platform === 'win32') return env['APPDATA'] ?? join(home, 'AppData', 'Roaming');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support');
  return env['XDG_CONFIG_HOME'] || join(home, '.config');
}

function readText(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}

const remembered = z.strictObject({ day: z.string(), token: z.string().regex(/^[\w-]{32}$/) });

/** Of this computer. */
function nodeYard(): YardMachine {
  return {
    token: (file, day) => tokenOfDay(file, day) ?? newToken(file, day),
    formId: () => randomUUID(),
    mayWrite: (folder) => {
      try {
        accessSync(folder, constants.W_OK);
        return true;
      } catch {
        return false;
      }
    },
    addresses: () =>
      Object.values(networkInterfaces()).flatMap((all) =>
        (all ?? []).flatMap(({ family, internal, address }) =>
          family === 'IPv4' && !internal ? [address] : [],
        ),
      ),
    stopped: untilStopped(),
  };
}

function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}

function tokenOfDay(file: string, day: string): string | undefined {
  try {
    const read = remembered.parse(JSON.parse(readFileSync(file, 'utf8')));
    return read.day === day ? read.token : undefined;
  } catch {
    return undefined;
  }
}

/** 192 bits by chance. Where it cannot be remembered, it holds for this run. */
function newToken(file: string, day: string): string {
  const token = randomBytes(24).toString('base64url');
  try {
    nodeDisk('', nodeCaseFiles).replace(file, `${JSON.stringify({ day, token })}\n`);
    chmodSync(file, 0o600);
  } catch {
    return token;
  }
  return token;
}

/** The effects of a real run; a test hands in a machine that stops. */
export function nodeEffects(machine: Machine = thisMachine): Effects {
  const disk = nodeDisk(process.cwd(), nodeCaseFiles, undefined, machine);
  return {
    folder: process.cwd(),
    today: () => localToday(),
    files: nodeCaseFiles,
    cache: cacheIn,
    writeFile: disk.replace,
    disk,
    bags: nodeArchiveDisk(process.cwd(), machine),
    browser: () =>
      findBrowser({
        platform: process.platform,
        env: process.env,
        places: browserPlaces,
        isThere: existsSync,
      }),
    readInput: () => readFileSync(0),
    dialogue: nodeDialogue(),
    mail: nodeMail(),
    // Only who serves forms or watches listens for the signals that end a program.
    get yard() {
      return nodeYard();
    },
    get watch() {
      return nodeWatch();
    },
    print: (text) => void process.stdout.write(shownSafely(text)),
    warn: (text) => void process.stderr.write(shownSafely(text)),
    onWindows: process.platform === 'win32',
    terminalWidth: process.stderr.isTTY ? process.stderr.columns : undefined,
  };
}

// eslint-disable-next-line no-control-regex
const ofCode = /(\u001b\[(?:97;40|0)m)/;

/** What is printed, but for the two colours of a code to scan, can neither move the cursor nor turn what follows. */
function shownSafely(text: string): string {
  return text
    .split(ofCode)
    .map((part, at) => (at % 2 === 1 ? part : signsShown(part)))
    .join('');
}

/** Questions in a real terminal; undefined where either end is none, since the questions would then end the run in silence. */
function nodeDialogue(): Dialogue | undefined {
  return process.stdin.isTTY && process.stdout.isTTY
    ? terminalDialogue(process.stdin, process.stdout)
    : undefined;
}

/**
 * Questions over the keys of a terminal; the up arrow in a line stands for the word `back`. The library is loaded when the
 * first is asked.
 *
 * Checked: tests/cli/keystrokes.test.ts
 */
export function terminalDialogue(
  input: Readable,
  output: Writable & { readonly columns?: number },
): Dialogue {
  return {
    show: (text) => void output.write(`${wrapped(text, output.columns ?? 80)}\n`),
    line: async (message, check, before = '') => {
      const { isCancel, log, text } = await import('@clack/prompts');
      // A long answer is there to be changed, a wrong one too; a short one is sooner typed anew, and Enter keeps it.
      const isLong = (answer: string): boolean => answer.length > 8;
      const initial = isLong(before)
        ? { initialValue: before }
        : { placeholder: before, defaultValue: before };
      for (;;) {
        const back = new AbortController();
        const onKey = (_: unknown, { name }: { readonly name?: string } = {}): void => {
          if (name === 'up' && check('back') === undefined) back.abort();
        };
        input.on('keypress', onKey);
        const validate = (given = ''): string | undefined => (isLong(given) ? check(given) : undefined);
        const typed = await text({ message, ...initial, validate, input, output, signal: back.signal });
        input.off('keypress', onKey);
        if (back.signal.aborted) return 'back';
        if (isCancel(typed)) return undefined;
        const wrong = check(typed ?? '');
        if (wrong === undefined) return typed ?? '';
        log.warn(wrong, { output });
      }
    },
    choose: async (message, choices) => {
      const { isCancel, select } = await import('@clack/prompts');
      const options = choices.map(({ label, value }) => ({ label, value }));
      const answer = await select<string>({ message, options, input, output });
      return isCancel(answer) ? undefined : answer;
    },
  };
}

/** Of this computer. The library is loaded when something is watched. */
export function nodeWatch(): WatchMachine {
  return {
    watch: async (folder, onSaved) => {
      const { watch } = await import('chokidar');
      const from = (path: string): string => relative(folder, path).replaceAll('\\', '/');
      const watcher = watch(folder, {
        ignoreInitial: true,
        // Dot-folders and dot-files are nobody's records: our own memory, and what editors and saving leave beside a file.
        ignored: (path: string) =>
          from(path)
            .split('/')
            .some((part) => part.startsWith('.') && part !== '..'),
        // A save by rename is one save, not a file that is gone and one that is new.
        atomic: true,
      });
      const told = (path: string): void => onSaved(from(path));
      for (const event of ['add', 'change', 'unlink', 'unlinkDir'] as const) watcher.on(event, told);
      // A folder that is taken away while it is looked at is no fault: what it held is reported as gone.
      watcher.on('error', () => {});
      await new Promise<void>((resolve) => void watcher.once('ready', () => resolve()));
      return () => watcher.close();
    },
    stopped: untilStopped(),
    milliseconds: () => performance.now(),
  };
}
