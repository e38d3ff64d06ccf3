import { join } from 'node:path';
import { entryKey } from '../casefile/remembered-farm.js';
import { terminal } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import type { FarmRecord } from '../record/practice.js';
import type { Effects } from './effects.js';
import { type CommonOptions, type ExitCode, exitOf, folderOf, worse, writeResult } from './exit-code.js';
import { exitFor, listProblems, pooledIn, type Reading, type ReadingCare, readCases } from './read-cases.js';
import { jsonText } from '../record/signs.js';

interface Going extends ReadingCare {
  /** The key under `terminal` of what is said of each farm that has an error. */
  readonly refused?: string;
  /** The problems that are listed; the errors unless said. */
  readonly lists?: (problem: Problem) => boolean;
}

/** What was made of a farm, as it is kept: what was said of it, the files written with their marks, and the result. */
interface Made<Done> {
  readonly said: (readonly [how: 'say' | 'warn', line: string])[];
  readonly wrote: (readonly [name: string, mark: string | undefined])[];
  readonly done: Done;
}

/** A line that is written over while the work on a farm goes on. */
export type Show = (what: string, done?: number, of?: number) => void;

/** One run of a command over farms: what was read, what all farms give to one another, and all that it says and writes. */
export type FarmRun = ReturnType<typeof farmRun>;

/**
 * Reads the case files for a command and goes over the farms it was asked for.
 *
 * Checked: tests/run/farm-run.test.ts, tests/cli/one-farms-trouble.test.ts
 */
export function farmRun(
  options: CommonOptions & { readonly out?: string },
  effects: Effects,
  going: Going = {},
  reading: Reading = readCases(options, effects, going),
) {
  const { practice, farms, problems, farmsRefused, filesRead, today } = reading;
  const { lists = ({ severity }) => severity === 'error', refused } = going;
  let pooling: ReturnType<typeof pooledIn> | undefined;
  const pooled = () => (pooling ??= pooledIn(reading));
  let made: Omit<Made<unknown>, 'done'> | undefined;
  const markOf = (name: string) => effects.files.look(join(folderOf(effects, options.out ?? ''), name))?.mark;
  const progress = progressOn(effects);
  let code = exitFor(problems);
  const warn = (line: string): void => {
    made?.said.push(['warn', line]);
    progress.clear();
    effects.warn(`${line}\n`);
  };
  let told = false;
  /** Lists the problems, and says of each farm with an error what it does not get; once. */
  const tell = (): void => {
    if (told) return;
    told = true;
    listProblems(problems.filter(lists), filesRead, effects);
    if (refused !== undefined) for (const farm of farmsRefused) warn(terminal(refused, { farm }));
  };
  /** A line of the result, where it is not printed as JSON. */
  const say = (line: string): void => {
    made?.said.push(['say', line]);
    progress.clear();
    if (options.json !== true) effects.print(`${line}\n`);
  };
  /** The key of all that a farm's papers are made from, and of what else is said; undefined where nothing is kept. */
  const keyFor = (farm: string, parts: readonly unknown[]): string | undefined => {
    const own = reading.memory && reading.keyOf(farm);
    const { business, narrative } = practice;
    return own && entryKey(own, pooled().keyFor(farm), business, narrative, today, options.out, ...parts);
  };
  return {
    ...reading,
    /** What all farms teach on the day. */
    get pooled() {
      return pooled().pooled;
    },
    /** What a farm's cases are worked out with. */
    get known() {
      return { business: practice.business, today, priors: pooled().pooled.priors };
    },
    /** How it ends, as far as it has gone: the worst of what the problems mean and of what stopped the work on a farm. */
    code: () => code,
    tell,
    warn,
    /**
     * Tells, then works on one farm after the other: what stops the work on one is said, and the others are worked on
     * all the same. With `kept`, what was made of a farm under this name is used again while nothing it is made from has
     * changed: its records, what others teach of it, the day, `on`, and the files written.
     */
    async each<Done>(
      work: (farm: FarmRecord, show: Show) => Promise<Done> | Done,
      kept?: { readonly as: string; readonly on: readonly unknown[] },
    ): Promise<readonly Done[]> {
      tell();
      const keys = kept ? farms.map(({ slug }) => keyFor(slug, kept.on)) : [];
      /** What was made of a farm, where it is still good. */
      const stillGood = (at: number): Made<Done> | undefined => {
        if (!keys[at]) return undefined;
        const before = reading.memory!.recall(`${farms[at]!.slug}/${kept!.as}`, keys[at]) as
          Made<Done> | undefined;
        return before?.wrote.every(([file, mark]) => mark && markOf(file) === mark) ? before : undefined;
      };
      const done: Done[] = [];
      for (const [at, farm] of farms.entries()) {
        const show: Show = (what, nth = at + 1, of = farms.length) => progress.show(nth, of, what);
        try {
          const before = stillGood(at);
          if (before) {
            for (const [how, line] of before.said) (how === 'say' ? say : warn)(line);
            done.push(before.done);
            continue;
          }
          // Whoever holds nothing of the farm before lets go of it here.
          await new Promise(setImmediate);
          show(farm.farm.farm);
          made = { said: [], wrote: [] };
          const result = await work(farm, show);
          done.push(result);
          const wrote = made.wrote.map(([file]) => [file, markOf(file)] as const);
          const making = { said: made.said, wrote, done: result } satisfies Made<Done>;
          if (keys[at]) reading.memory!.keep(`${farm.slug}/${kept!.as}`, keys[at], making);
        } catch (error) {
          progress.clear();
          code = worse(code, exitOf(error, effects, farm.slug));
        } finally {
          made = undefined;
        }
      }
      progress.clear();
      return done;
    },
    /** Writes a result into the folder of `--out`; its path as the user would type it. */
    write(name: string, content: string | Uint8Array): string {
      const out = options.out ?? '';
      writeResult(join(folderOf(effects, out), name), content, effects);
      made?.wrote.push([name, undefined]);
      return join(out, name);
    },
    say,
    /** Prints the result as JSON where that is asked for; how the command ends. */
    end(result: unknown): ExitCode {
      if (options.json === true) effects.print(jsonText(result));
      return code;
    },
  };
}

/** Silent where no terminal is attached. */
function progressOn(effects: Effects) {
  const width = effects.terminalWidth;
  let shown = false;
  return {
    show(done: number, of: number, what: string): void {
      if (width === undefined) return;
      const line = terminal('progress.done', { done, of, what }).slice(0, Math.max(10, width - 1));
      effects.warn(`\r\u001B[2K${line}`);
      shown = true;
    },
    clear(): void {
      if (shown) effects.warn('\r\u001B[2K');
      shown = false;
    },
  };
}
