import { datesOf, speechOn } from '../../form/asking/as-said.js';
import { Option } from 'commander';
import type { Keeping } from '../../keep/change.js';
import { type Answering, readAnswer } from '../../keep/answer/read-answer.js';
import { readAnswers } from '../../keep/answer/read-answers.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { WrongUse } from '../../run/exit-code.js';
import { type Keys, type Typed, visitKeys } from './key-flags.js';

/** A visit as far as flags say it. */
export type VisitTyped = Record<string, unknown> & { readonly date: CalendarDay };

/** What was typed under each key, by the key. */
export function typedAnswers(
  options: Readonly<Record<string, unknown>>,
  keys: Keys,
): ReadonlyMap<string, readonly string[]> {
  const typed = new Map<string, readonly string[]>();
  for (const key of keys.keys()) {
    const given = options[new Option(`--${key} <answer>`).attributeName()];
    if (Array.isArray(given)) typed.set(key, given as string[]);
    else if (given === true) typed.set(key, ['yes']);
  }
  return typed;
}

/** What was typed under the flags of these keys, as a draft. Error: WrongUse with all that cannot be read */
export function draftTyped(options: Typed, keys: Keys, keeping: Keeping): Record<string, unknown> {
  const { today } = keeping;
  const speech = speechOn(today, datesOf(keeping));
  return draftOf(typedAnswers(options, keys), keys, { from: today, speech });
}

function draftOf(
  typed: ReadonlyMap<string, readonly string[]>,
  keys: Keys,
  answering: Answering,
): Record<string, unknown> {
  const draft: Record<string, unknown> = {};
  const troubles: string[] = [];
  for (const [key, given] of typed) {
    const wanted = keys.get(key)?.wanted;
    const read = wanted && readAnswers(wanted, given, { ...answering, name: `--${key}` });
    if (read?.outcome === 'trouble') troubles.push(read.message);
    else if (read) draft[key] = read.value;
  }
  if (troubles.length > 0) throw new WrongUse(troubles.join('\n'));
  return draft;
}

/** What the flags say and no more, but for the day; `vet` and other groups that need a day take the visit's. */
export function draftFromFlags(options: Typed, keeping: Keeping): VisitTyped {
  const { today } = keeping;
  const typed = typedAnswers(options, visitKeys);
  const [written = today] = typed.get('date') ?? [];
  const speech = speechOn(today, datesOf(keeping));
  // A span counts from the visit; of a day that does not exist `draftOf` tells, with all else that is wrong.
  const read = readAnswer({ kind: 'day' }, written, { from: today, speech });
  const from = read.outcome === 'value' ? String(read.value) : today;
  const known = read.outcome === 'value' ? new Map([...typed, ['date', [from]]]) : typed;
  return withDays({ date: today, ...draftOf(known, visitKeys, { from, speech }) });
}

/** A vet is asked on the day of the visit unless another is said. */
export function withDays<T extends Record<string, unknown> & { readonly date: string }>(draft: T): T {
  const { vet, date } = draft as T & { vet?: Record<string, unknown> };
  return vet === undefined ? draft : { ...draft, vet: { asked: date, ...vet } };
}
