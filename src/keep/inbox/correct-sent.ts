import { isDeepStrictEqual } from 'node:util';
import type { RecordPath } from '../../problem/problem.js';
import { terminal } from '../../problem/message.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Step } from '../../record/record-step.js';
import type { Photo, Visit } from '../../record/visit.js';
import { type Declares, namedSteps } from '../add-visit.js';
import { cannot, type Keeping, type Worked } from '../change.js';
import type { KeptFile } from '../kept-file.js';
import type { VisitDraft } from '../visit-draft.js';
import { workOutSteps } from '../work-out.js';

/** What a visit says, but for its pictures and for who put it right since, which the form does not show. */
function said({ photos: _photos, amended: _amended, ...rest }: Visit | VisitDraft): unknown {
  return JSON.parse(JSON.stringify(rest));
}

/** Where among her visits one stands that was sent, word for word but for its pictures; -1 where none does. */
export function placeOnFile(visits: readonly Visit[], sent: Readonly<Record<string, unknown>>): number {
  return visits.findLastIndex((visit) => isDeepStrictEqual(said(visit), said(sent as VisitDraft)));
}

/** What is to stand in the place of a visit that was sent, taken, and sent again with changes. */
interface SentAnew {
  readonly was: Readonly<Record<string, unknown>>;
  readonly draft: VisitDraft;
  readonly declares: Declares;
  /** Those that came with the change; what is on file stays. */
  readonly photos: readonly Photo[];
  readonly on: CalendarDay;
}

/**
 * A visit on file corrected in the open, as `growdown correct` does, to what the form says now: value by value, the
 * reason under `amended`. Where one was taken out, what held it is written anew.
 *
 * Error:   a visit that was changed since at the desk is left as it is
 * Checked: tests/cli/take-inbox.test.ts
 */
export function correctSent(
  kept: KeptFile & { readonly record: Animal },
  farm: string,
  { was, draft, declares, photos, on }: SentAnew,
  keeping: Keeping,
): Worked {
  const index = placeOnFile(kept.record.visits, was);
  const before = kept.record.visits[index];
  if (!before) return cannot('keep.inbox.sent-again');
  const lesions = firstMet(kept.record.lesions, declares.lesions);
  const marks = firstMet(kept.record.marks, declares.marks);
  if (!lesions || !marks) return cannot('keep.inbox.sent-again');
  if (before.date !== draft.date) return cannot('keep.inbox.other-day', { day: before.date });
  const all = [...(before.photos ?? []), ...photos];
  const amendment = { date: on, by: draft.by, why: terminal('keep.inbox.corrected') };
  const now = {
    ...draft,
    ...(all.length === 0 ? {} : { photos: all }),
    amended: [...(before.amended ?? []), amendment],
  };
  const steps = [
    ...namedSteps(kept.record, 'lesions', lesions),
    ...namedSteps(kept.record, 'marks', marks),
    ...stepsBetween(['visits', index], JSON.parse(JSON.stringify(before)) as Group, now),
  ];
  const what = terminal('keep.what.visit-corrected', { day: draft.date });
  return workOutSteps({ kept, steps }, { what, farms: [farm] }, keeping);
}

/** Of what the form declares that which her file has not; undefined where the file has it otherwise. */
function firstMet<T>(there: Group = {}, declared: Readonly<Record<string, T>> = {}): Readonly<Record<string, T>> | undefined {
  const entries = Object.entries(declared);
  const isOtherwise = ([name, one]: [string, T]): boolean => there[name] !== undefined && !isDeepStrictEqual(there[name], one);
  return entries.some(isOtherwise) ? undefined : Object.fromEntries(entries.filter(([name]) => there[name] === undefined));
} // prettier-ignore

type Group = Readonly<Record<string, unknown>>;

function isGroup(value: unknown): value is Group {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function stepsBetween(path: RecordPath, was: Group, now: Group): Step[] {
  if (Object.keys(was).some((key) => now[key] === undefined)) return [{ put: 'value', path, value: now }];
  return Object.entries(now).flatMap(([key, value]): Step[] => {
    const before = was[key];
    if (isDeepStrictEqual(before, value)) return [];
    if (before === undefined) return [{ put: 'key', path, key, value }];
    const inner = [...path, key];
    if (Array.isArray(before) && Array.isArray(value) && isDeepStrictEqual(before, value.slice(0, before.length)))
      return value.slice(before.length).map((entry: unknown, at) => ({ put: 'entry', path: inner, index: before.length + at, value: entry })); // prettier-ignore
    return isGroup(before) && isGroup(value)
      ? stepsBetween(inner, before, value)
      : [{ put: 'value', path: inner, value }];
  });
}
