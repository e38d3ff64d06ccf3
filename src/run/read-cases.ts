import { type FarmsChosen, chooseFarm } from '../casefile/choose-farm.js';
import type { PictureCare } from '../casefile/look-at-picture.js';
import { readPractice } from '../casefile/read-practice.js';
import { type FarmMemory, entryKey } from '../casefile/remembered-farm.js';
import { digestOf, type FarmDigest } from '../herd/farm-digest.js';
import {
  pooledAsData,
  type PooledData,
  pooledFrom,
  pooledOf,
  pooledOn,
  taughtUpTo,
} from '../herd/pooled-on.js';
import { countLine, formatProblem } from '../problem/format-problem.js';
import type { Problem } from '../problem/problem.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { type CommonOptions, exitCode, type ExitCode, WrongUse, folderOf } from './exit-code.js';
import type { Effects } from './effects.js';
import { terminal } from '../problem/message.js';
import { join } from 'node:path';
import type { FarmRecord } from '../record/practice.js';

/** What a command starts from: the case files read and checked, the farms asked for, and the day it works as on. */
export interface Reading extends FarmsChosen {
  readonly today: CalendarDay;
  /** What was made of the farms earlier; undefined where nothing is kept. */
  readonly memory?: FarmMemory | undefined;
}

/** How far pictures are believed; `trustsPictures`: one that has its size, times and place on the disk is the one it was. */
export interface ReadingCare {
  readonly pictures?: PictureCare;
  readonly trustsPictures?: boolean;
}

/**
 * The bytes of a file the user named.
 *
 * Error: WrongUse where there is none, or it has more bytes than any of its kind; what the file system throws
 */
export function readNamed(
  file: string,
  kind: 'note' | 'list' | 'records',
  most: number,
  { files }: Pick<Effects, 'files'>,
): Uint8Array {
  const there = files.look(file);
  if (there?.kind !== 'file') throw new WrongUse(terminal(`file.${kind}.none`, { file }));
  if (there.bytes > most)
    throw new WrongUse(terminal(`file.${kind}.too-large`, { file, bytes: there.bytes, most }));
  return files.read(file);
}

/** Reads all case files in the folder named, since all teach what to expect; then picks the farm named. */
export function readCases(
  options: CommonOptions,
  effects: Effects,
  { pictures = 'sized', trustsPictures = false }: ReadingCare = {},
): Reading {
  const today = options.today ?? effects.today();
  const memory = options.cache === false ? undefined : effects.cache?.(folderOf(effects, options.cases));
  const upTo = taughtUpTo(today);
  const onRead = (farm: FarmRecord, key: string): void =>
    memory?.keep(`${farm.slug}/digest`, entryKey(key, upTo), digestOf(farm, upTo));
  const remembering = memory ? { memory, onRead, trustsPictures } : {};
  const whole = readPractice(effects.files, options.cases, { today, pictures, ...remembering });
  if (whole.farmsFound.length > 0) memory?.only(whole.farmsFound);
  const reading = chooseFarm(whole, options.farm);
  return { ...reading, problems: sayUnfinished(reading.problems, options, effects), today, memory };
}

/** What all farms teach on the day, and a key of what one farm's papers take of it; out of digests that are kept. */
export function pooledIn({ practice, keyOf: ownKey, memory, today }: Reading) {
  if (!memory) return { pooled: pooledOn(practice, today), keyFor: (_farm: string) => '' };
  const upTo = taughtUpTo(today);
  const digests = practice.farms.map((farm) => {
    const own = ownKey(farm.slug);
    const [name, key] = [`${farm.slug}/digest`, entryKey(own, upTo)];
    const kept = own && memory.hashOf(name, key);
    const recalled = () => (memory.recall(name, key) as FarmDigest | undefined) ?? digestOf(farm, upTo);
    if (kept) return { recalled, hash: kept };
    const digest = digestOf(farm, upTo);
    if (own) memory.keep(name, key, digest);
    return { recalled: () => digest, hash: (own && memory.hashOf(name, key)) ?? entryKey(digest) };
  });
  const key = entryKey(upTo, ...digests.map(({ hash }) => hash));
  let data = memory.recall('pooled', key) as PooledData | undefined;
  if (!data) {
    const all = digests.map(({ recalled }) => recalled());
    data = pooledAsData(pooledOf(all, upTo), all);
    memory.keep('pooled', key, data);
  }
  const { priors, ...common } = data;
  const ofAll = entryKey(common);
  return { pooled: pooledFrom(data), keyFor: (farm: string) => entryKey(ofAll, priors[farm]) };
}

/** Says in a line each what was broken off; what is left of the problems, all of them where they are handed on as JSON. */
export function sayUnfinished(
  problems: readonly Problem[],
  { json }: Pick<CommonOptions, 'json'>,
  effects: Effects,
): readonly Problem[] {
  const left = problems.filter(({ id }) => id === 'folder/unfinished');
  for (const { file, message, mend } of left) effects.warn(`${file}: ${message}; ${mend}\n`);
  return json ? problems : problems.filter((one) => !left.includes(one));
}

/** Says of each farm with an error what it goes without. */
export function sayRefused(
  what: 'page' | 'form-served' | 'note',
  farms: readonly string[],
  effects: Effects,
): void {
  for (const farm of farms) effects.warn(`${terminal(`refused.${what}`, { farm })}\n`);
}

/** Problems that say the command was pointed at the wrong place, not that a record is wrong. */
const wrongPlace = [
  'folder/no-cases-folder',
  'folder/not-a-folder',
  'folder/no-such-farm',
  'folder/pointed-at-farm',
];

/** What the problems mean for the shell. */
export function exitFor(problems: readonly Problem[]): ExitCode {
  const errors = problems.filter((p) => p.severity === 'error');
  if (errors.length === 0) return exitCode.well;
  return errors.some((p) => wrongPlace.includes(p.id)) ? exitCode.wrongUse : exitCode.problems;
}

/** Lists problems, one after the other, then their count. */
export function listProblems(problems: readonly Problem[], filesRead: number, effects: Effects): void {
  if (problems.length === 0) return;
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  effects.warn(`${countLine(problems, filesRead)}\n`);
}

/** Reads a picture named in a farm's records; undefined where there is nothing that can be read. A name may be written with `\`. */
export function readPicture(
  effects: Effects,
  cases: string,
  farm: string,
): (file: string) => Uint8Array | undefined {
  const folder = join(folderOf(effects, cases), farm);
  return (file) => {
    const path = join(folder, file.replaceAll('\\', '/'));
    try {
      return effects.files.look(path)?.kind === 'file' ? effects.files.read(path) : undefined;
    } catch {
      return undefined;
    }
  };
}

/** Whether a picture named in a farm's records is in its folder. */
export function isPictureThere(effects: Effects, cases: string, farm: string): (file: string) => boolean {
  const folder = join(folderOf(effects, cases), farm);
  return (file) => effects.files.look(join(folder, file.replaceAll('\\', '/')))?.kind === 'file';
}

/** A farm by its name, with how many animals and visits it has on file, for a sentence. */
export function farmCounted({ farm, cases }: FarmRecord) {
  const visits = cases.reduce((sum, one) => sum + one.animal.visits.length, 0);
  return { farm: farm.farm, animals: counted(cases.length, 'animal'), visits: counted(visits, 'visit') };
}

/** A number with its noun, for a sentence that has several. @example counted(1, 'visit') // → '1 visit' */
export function counted(
  count: number,
  what: 'animal' | 'file' | 'page' | 'picture' | 'run' | 'visit',
): string {
  return terminal(`count.${what}`, { count });
}
