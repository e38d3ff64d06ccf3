import { stepInto } from '../../casefile/explain/explain-key.js';
import { type Wanted, wantedBy } from '../../casefile/wanted.js';
import { nearestWord } from '../../casefile/nearest-word.js';
import { readAnswers } from '../../keep/answer/read-answers.js';
import { inRow, terminal } from '../../problem/message.js';
import { correctValue } from '../../keep/correct-value.js';
import { openAnimal, openFarm, type KeptFile } from '../../keep/kept-file.js';
import type { RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import { visit as visitSchema } from '../../record/visit.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { namedCase } from '../../run/find-case.js';
import { type KeepingOptions, keepingOf, writeChange } from '../../run/write-change.js';
import { trimmerOf } from './animal-named.js';

const keysOfVisit: ReadonlySet<string> = new Set(Object.keys(visitSchema.shape));

export interface CorrectOptions extends KeepingOptions {
  readonly was?: string;
  readonly why?: string;
  readonly by?: string;
}

/** Puts one value right, in an animal's file or, where no animal is named, in `farm.md`. */
export async function correct(
  named: string,
  at: string,
  typed: string,
  options: CorrectOptions,
  effects: Effects,
): Promise<ExitCode> {
  // A name alone is a farm's.
  const { farm: hers, animal } = namedCase(named);
  const farm = hers ?? animal;
  const today = keepingOf(options, effects).today;
  const { why, was } = options;
  const by = options.by ?? (why === undefined ? undefined : trimmerOf(keepingOf(options, effects)));
  if (why !== undefined && by === undefined) throw new WrongUse(terminal('correct.no-by'));
  const amendment = why === undefined || by === undefined ? undefined : { date: today, by, why };
  return await writeChange(options, effects, [farm], (keeping) => {
    const opened = hers === undefined ? openFarm(keeping, farm) : openAnimal(keeping, farm, animal);
    if (opened.outcome !== 'open') return opened;
    const { kept } = opened;
    const path = pathIn(kept, at);
    if (typeof path === 'string') return { outcome: 'cannot', message: path };
    const value = answer(kept, path, typed, today);
    const old = was === undefined ? {} : { was: answer(kept, path, was, today) };
    return correctValue(kept, [farm], { path, value, ...old, amendment }, keeping);
  });
}

function answer(kept: KeptFile, path: RecordPath, typed: string, today: string): unknown {
  const whole = wantedBy(kept.schema);
  const wanted = path.reduce<Wanted | undefined>(stepInto, whole);
  if (!wanted) throw new WrongUse(noKeyThere(whole, path));
  const read = readAnswers(wanted, [typed], { from: today, name: String(path.at(-1)) });
  if (read.outcome === 'trouble') throw new WrongUse(read.message);
  return read.value;
}

/** The first part of a path that leads nowhere, and what may stand there. */
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
  const parts = at.split('.').filter((part) => part !== '' && part !== 'visits');
  const [first = '', ...rest] = parts;
  const lists = (part: string): string | number => (/^\d{1,4}$/.test(part) ? Number(part) - 1 : part);
  if (!/^\d{4}-\d\d-\d\d$/.test(first)) return at.split('.').map(lists);
  const { visits } = kept.record as Animal;
  const days = (visits ?? []).flatMap(({ date }, i) => (date === first ? [i] : []));
  const [only] = days;
  if (only === undefined) return terminal('correct.no-visit', { file: kept.file, day: first });
  if (days.length > 1)
    return terminal('correct.visits', {
      file: kept.file,
      visits: days.length,
      day: first,
      places: days.map((i) => `visits.${i + 1}`).join(' or '),
    });
  return ['visits', only, ...rest.map(lists)];
}
