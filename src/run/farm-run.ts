import { join } from 'node:path';
import type { PictureCare } from '../casefile/look-at-picture.js';
import { pooledOn } from '../herd/pooled-on.js';
import { terminal } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import type { FarmRecord } from '../record/practice.js';
import type { Effects } from './effects.js';
import { type CommonOptions, type ExitCode, exitOf, folderOf, worse, writeResult } from './exit-code.js';
import { exitFor, listProblems, type Reading, readCases } from './read-cases.js';
import { jsonText } from '../record/signs.js';

interface Going {
  /** The key under `terminal` of what is said of each farm that has an error. */
  readonly refused?: string;
  readonly pictures?: PictureCare;
  /** The problems that are listed; the errors unless said. */
  readonly lists?: (problem: Problem) => boolean;
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
  const pooled = pooledOn(practice, today);
  const progress = progressOn(effects);
  let code = exitFor(problems);
  const warn = (line: string): void => {
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
  return {
    ...reading,
    pooled,
    /** What a farm's cases are worked out with. */
    get known() {
      return { business: practice.business, today, priors: pooled.priors };
    },
    /** How it ends, as far as it has gone: the worst of what the problems mean and of what stopped the work on a farm. */
    code: () => code,
    tell,
    warn,
    /** Tells, then works on one farm after the other: what stops the work on one is said, and the others are worked on all the same. */
    async each<Done>(work: (farm: FarmRecord, show: Show) => Promise<Done> | Done): Promise<readonly Done[]> {
      tell();
      const done: Done[] = [];
      for (const [index, farm] of farms.entries()) {
        const show: Show = (what, at = index + 1, of = farms.length) => progress.show(at, of, what);
        show(farm.farm.farm);
        try {
          done.push(await work(farm, show));
        } catch (error) {
          progress.clear();
          code = worse(code, exitOf(error, effects, farm.slug));
        }
      }
      progress.clear();
      return done;
    },
    /** Writes a result into the folder of `--out`; its path as the user would type it. */
    write(name: string, content: string | Uint8Array): string {
      const out = options.out ?? '';
      writeResult(join(folderOf(effects, out), name), content, effects);
      return join(out, name);
    },
    /** A line of the result, where it is not printed as JSON. */
    say(line: string): void {
      progress.clear();
      if (options.json !== true) effects.print(`${line}\n`);
    },
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
