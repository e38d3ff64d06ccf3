import { isDeepStrictEqual } from 'node:util';
import type { RecordPath } from '../../problem/problem.js';
import { terminal } from '../../problem/message.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Step } from '../../record/record-step.js';
import type { Photo, Visit } from '../../record/visit.js';
import { type Declares, namedSteps } from '../add-visit.js';
import { isGroup } from '../../casefile/wanted.js';
import { cannot, type Keeping, type Worked } from '../change.js';
import type { KeptFile } from '../kept-file.js';
import type { VisitDraft } from '../visit-draft.js';
import { changeIn } from '../work-out.js';

/** What a visit says, but for its pictures and for who put it right since, which the form does not show. */
function said({ photos: _photos, amended: _amended, ...rest }: Visit | VisitDraft): unknown {
  return JSON.parse(JSON.stringify(rest));
}

/** The index among her visits of one that was sent, word for word but for its pictures; -1 where none does. */
export function placeOnFile(visits: readonly Visit[], sent: Readonly<Record<string, unknown>>): number {
  return visits.findLastIndex((visit) => isDeepStrictEqual(said(visit), said(sent as VisitDraft)));
}

/**
 * A visit on file corrected in the open, as `growdown correct` does, to what the form says now: value by value, the
 * reason under `amended`. Where one was taken out, what held it is written anew.
 *
 * Shape:   `was`: as it was sent and taken; `photos`: those that came with the change, what is on file stays
 * Error:   a visit that was changed since at the desk is left as it is
 * Checked: tests/cli/take-inbox.test.ts
 */
export function correctSent(
  kept: KeptFile & { readonly record: Animal },
  farm: string,
  {
    was,
    draft,
    declares,
    photos,
    on,
  }: {
    readonly was: Group;
    readonly draft: VisitDraft;
    readonly declares: Declares;
    readonly photos: readonly Photo[];
    readonly on: CalendarDay;
  },
  keeping: Keeping,
): Worked {
  const { record } = kept;
  const index = placeOnFile(record.visits, was);
  const before = record.visits[index];
  const [lesions, marks] = [
    firstMet(record.lesions, declares.lesions),
    firstMet(record.marks, declares.marks),
  ];
  if (!before || !lesions || !marks) return cannot('keep.inbox.sent-again');
  if (before.date !== draft.date) return cannot('keep.inbox.other-day', { day: before.date });
  const all = [...(before.photos ?? []), ...photos];
  const amendment = { date: on, by: draft.by, why: terminal('keep.inbox.corrected') };
  const now = {
    ...draft,
    ...(all.length === 0 ? {} : { photos: all }),
    amended: [...(before.amended ?? []), amendment],
  };
  return changeIn({ outcome: 'open', kept }, farm, keeping, () => ({
    what: terminal('keep.what.visit-corrected', { day: draft.date }),
    steps: [
      ...namedSteps(record, 'lesions', lesions),
      ...namedSteps(record, 'marks', marks),
      ...stepsBetween(['visits', index], JSON.parse(JSON.stringify(before)) as Group, now),
    ],
  }));
}

type Group = Readonly<Record<string, unknown>>;

/** Of what the form declares what her file has not; undefined where the file has it otherwise. */
function firstMet<T>(there: Group = {}, declared: Readonly<Record<string, T>> = {}) {
  const entries = Object.entries(declared);
  const isOtherwise = entries.some(([name, one]) => there[name] && !isDeepStrictEqual(there[name], one));
  return isOtherwise ? undefined : Object.fromEntries(entries.filter(([name]) => !there[name]));
}

function stepsBetween(path: RecordPath, was: Group, now: Group): Step[] {
  if (Object.keys(was).some((key) => now[key] === undefined)) return [{ put: 'value', path, value: now }];
  return Object.entries(now).flatMap(([key, value]): Step[] => {
    const before = was[key];
    if (isDeepStrictEqual(before, value)) return [];
    if (before === undefined) return [{ put: 'key', path, key, value }];
    const inner = [...path, key];
    if (isGroup(before) && isGroup(value)) return stepsBetween(inner, before, value);
    const { length } = Array.isArray(before) && Array.isArray(value) ? before : { length: -1 };
    if (length < 0 || !isDeepStrictEqual(before, (value as unknown[]).slice(0, length)))
      return [{ put: 'value', path: inner, value }];
    return (value as unknown[])
      .slice(length)
      .map((entry, at) => ({ put: 'entry', path: inner, index: length + at, value: entry }));
  });
}
