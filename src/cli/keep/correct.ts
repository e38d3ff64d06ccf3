import { stepInto } from '../../casefile/explain/explain-key.js';
import { type Wanted, wantedBy } from '../../casefile/wanted.js';
import { nearestWord } from '../../casefile/nearest-word.js';
import { readAnswers } from '../../keep/answer/read-answers.js';
import { inRow, terminal } from '../../problem/message.js';
import { type CorrectionAsked, correctValues } from '../../keep/correct-value.js';
import type { Keeping } from '../../keep/change.js';
import { findFolder, openAnimal, openBusiness, openFarm, type KeptFile } from '../../keep/kept-file.js';
import { moveToAnimal, moveToDay } from '../../keep/move-visit.js';
import type { RecordPath } from '../../problem/problem.js';
import type { Animal, animal as animalSchema } from '../../record/animal.js';
import type { Amendment } from '../../record/measures.js';
import { visit as visitSchema } from '../../record/visit.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { namedCase } from '../../run/find-case.js';
import { type KeepingOptions, keepingOf, writeChange } from '../../run/write-change.js';
import { animalNamed, trimmerOf } from './animal-named.js';

const keysOfVisit: ReadonlySet<string> = new Set(Object.keys(visitSchema.shape));

interface InTheOpen extends KeepingOptions {
  readonly why?: string;
  readonly by?: string;
}

export interface CorrectOptions extends InTheOpen {
  readonly was?: string;
  /** Places whose values are taken out. */
  readonly takeOut?: readonly string[];
}

/**
 * Puts values right, or takes them out, in an animal's file or, where no animal is named, in `farm.md`; `business` is
 * `business.md`. `said`: a place and its value, and so on.
 */
export async function correct(
  named: string,
  said: readonly string[],
  { takeOut = [], ...options }: CorrectOptions,
  effects: Effects,
): Promise<ExitCode> {
  if (said.length % 2 > 0) throw new WrongUse(terminal('correct.no-value', { where: said.at(-1)! }));
  if (said.length + takeOut.length === 0) throw new WrongUse(terminal('correct.nothing-said'));
  // A name alone is a farm's.
  const { farm: hers, animal } = namedCase(named);
  const farm = hers ?? animal;
  const { today } = keepingOf(options, effects);
  const amendment = amendmentOf(options, effects);
  const isBusiness = named === 'business' && !hasFarm(keepingOf(options, effects), named);
  const farms = isBusiness ? [] : [farm];
  return await writeChange(options, effects, farms, (keeping) => {
    const opened = isBusiness
      ? openBusiness(keeping)
      : hers === undefined
        ? openFarm(keeping, farm)
        : openAnimal(keeping, farm, animal);
    if (opened.outcome !== 'open') return opened;
    const kept: KeptFile = opened.kept;
    const asked: CorrectionAsked[] = [];
    for (const [at, typed] of [...pairs(said), ...takeOut.map((one) => [one, undefined] as const)]) {
      const path = pathIn(kept, at);
      if (typeof path === 'string') return { outcome: 'cannot', message: path };
      const value = answer(kept, path, typed, today);
      asked.push({
        path,
        value,
        ...(options.was === undefined ? {} : { was: answer(kept, path, options.was, today) }),
      });
    }
    const [{ path, value, was }, ...more] = asked as [CorrectionAsked, ...CorrectionAsked[]];
    const [list, index, key] = path;
    const isTime = list === 'visits' && path.length === 3 && (key === 'date' || key === 'at');
    if (!isTime || more.length > 0 || typeof value !== 'string' || was !== undefined)
      return correctValues(kept, farms, asked, amendment, keeping);
    const visit = { farm, kept: opened.kept as KeptFile<typeof animalSchema>, index: Number(index) };
    return moveToDay(visit, { [key]: value }, amendment, keeping);
  });
}

function pairs(said: readonly string[]): (readonly [string, string])[] {
  return said.flatMap((where, at) => (at % 2 === 0 ? [[where, said[at + 1]!] as const] : []));
}

/** Puts a visit on another day, or into the file of another animal. */
export async function moveVisit(
  named: string,
  at: string,
  to: string,
  options: InTheOpen,
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const amendment = amendmentOf(options, effects);
  const { today } = keepingOf(options, effects);
  const day = readAnswers({ kind: 'day' }, [to], { from: today, name: '`TO`' });
  if (day.outcome === 'trouble' && /^\d+[-./]\d+[-./]\d+$/.test(to)) throw new WrongUse(day.message);
  const said = namedCase(to);
  const other = { farm: said.farm ?? farm, animal: said.animal };
  const farms = day.outcome === 'value' ? [farm] : [...new Set([farm, other.farm])];
  return await writeChange(options, effects, farms, (keeping) => {
    const opened = openAnimal(keeping, farm, animal);
    if (opened.outcome !== 'open') return opened;
    const { kept } = opened;
    const path = pathIn(kept, at);
    if (typeof path === 'string') return { outcome: 'cannot', message: path };
    const [list, index, ...more] = path;
    if (list !== 'visits' || !kept.record.visits[Number(index)] || more.length > 0)
      return { outcome: 'cannot', message: terminal('correct.no-visit', { file: kept.file, day: at }) };
    const visit = { farm, kept, index: Number(index) };
    return day.outcome === 'value'
      ? moveToDay(visit, { date: String(day.value) }, amendment, keeping)
      : moveToAnimal(visit, other, { amendment, day: effects.disk.today() }, keeping);
  });
}

function amendmentOf({ why, by: said, ...options }: InTheOpen, effects: Effects): Amendment | undefined {
  if (why === undefined) return undefined;
  const keeping = keepingOf(options, effects);
  const by = said ?? trimmerOf(keeping);
  if (by === undefined) throw new WrongUse(terminal('correct.no-by'));
  return { date: keeping.today, by, why };
}

function hasFarm(keeping: Keeping, farm: string): boolean {
  const found = findFolder(keeping);
  return found.outcome === 'found' && found.farms.some(({ slug }) => slug === farm);
}

/** Undefined where nothing should be there. */
function answer(kept: KeptFile, path: RecordPath, typed: string | undefined, today: string): unknown {
  const whole = wantedBy(kept.schema);
  const wanted = path.reduce<Wanted | undefined>(stepInto, whole);
  if (!wanted) throw new WrongUse(noKeyThere(whole, path));
  if (typed === undefined) return undefined;
  const read = readAnswers(wanted, [typed], { from: today, name: String(path.at(-1)) });
  if (read.outcome === 'trouble') throw new WrongUse(read.message);
  return read.value;
}

/** The first part of a path that leads nowhere, and what may appear there. */
function noKeyThere(whole: Wanted, path: RecordPath): string {
  const steps = path.map((_, to) => path.slice(0, to).reduce<Wanted | undefined>(stepInto, whole));
  const last = steps.findLastIndex((step) => step !== undefined);
  const [at, key] = [steps[last], String(path[last])];
  const keys = at?.kind === 'group' ? [...at.keys.keys()] : [];
  const expected = keys.length === 0 ? terminal('correct.nothing-more') : inRow('or', keys);
  if (last === 0 && keysOfVisit.has(key))
    return terminal('correct.key-of-visit', { key, expected, path: path.join('.') });
  const near = nearestWord(key, keys);
  return near === undefined
    ? terminal('correct.no-key', { key, expected })
    : terminal('correct.key-near', { key, expected, near });
}

/** `2026-03-03.found.a.top`: a visit by its day, an entry of a list by its place counted from 1. A text says what is wrong. */
function pathIn(kept: KeptFile, at: string): RecordPath | string {
  const [first = '', ...rest] = at.split('.').filter((part) => part !== '');
  const isDay = (part: string | undefined): part is string => /^\d{4}-\d\d-\d\d$/.test(part ?? '');
  const [day, ...behind] = first === 'visits' ? rest : [first, ...rest];
  const path: (string | number)[] = [];
  let wanted: Wanted | undefined = wantedBy(kept.schema);
  const go = (part: string | number): void => {
    // Scores that are counted are names, entries of a list have places.
    const isPlace = wanted?.kind !== 'named' && /^[1-9]\d{0,3}$/.test(String(part));
    const step = typeof part === 'string' && isPlace ? Number(part) - 1 : part;
    path.push(step);
    wanted = stepInto(wanted, step);
  };
  if (!isDay(day)) {
    for (const part of [first, ...rest]) go(part);
    return path;
  }
  const { visits } = kept.record as Animal;
  const days = (visits ?? []).flatMap(({ date }, i) => (date === day ? [i] : []));
  const [only] = days;
  if (only === undefined) return terminal('correct.no-visit', { file: kept.file, day });
  if (days.length > 1)
    return terminal('correct.visits', {
      file: kept.file,
      visits: days.length,
      day,
      places: days.map((i) => `visits.${i + 1}`).join(' or '),
    });
  for (const part of ['visits', only, ...behind]) go(part);
  return path;
}
