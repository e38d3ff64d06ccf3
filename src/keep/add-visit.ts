import type { z } from 'zod';
import type { Animal } from '../record/animal.js';
import type { lesion, mark } from '../record/lesion.js';
import { type Keeping, type Worked, cannot } from './change.js';
import { openAnimal } from './kept-file.js';
import type { Step } from '../record/record-step.js';
import { changeIn } from './work-out.js';
import { terminal } from '../problem/message.js';
import type { Visit } from '../record/visit.js';
import type { VisitDraft } from './visit-draft.js';
import type { CaseDraft } from './open-case.js';

type LesionDraft = z.input<typeof lesion>;
type MarkDraft = z.input<typeof mark>;

type Declaring<Draft> = (
  keeping: Keeping,
  farm: string,
  animal: string,
  name: string,
  draft: Draft,
) => Worked;

/** A lesion declared by a name of its own, before or without a visit at which it was found. */
export const declareLesion: Declaring<LesionDraft> = declaring('lesions', 'lesion');

/** A growth mark declared by a name of its own. */
export const declareMark: Declaring<MarkDraft> = declaring('marks', 'mark');

function declaring(group: 'lesions' | 'marks', kind: string): Declaring<LesionDraft | MarkDraft> {
  return (keeping, farm, animal, name, draft) =>
    changeIn(openAnimal(keeping, farm, animal), farm, keeping, ({ record, file }) => {
      if (record.lesions[name] ?? record.marks?.[name])
        return cannot('keep.declared-already', { name, file });
      const what = terminal(`keep.what.${kind}`, { name });
      return { what, steps: namedSteps(record, group, { [name]: draft }) };
    });
}

/** Each under its name, behind those declared; the group is begun where the file has none. */
export function namedSteps(
  record: Animal,
  group: 'lesions' | 'marks',
  drafts: Readonly<Record<string, LesionDraft | MarkDraft>> = {},
): Step[] {
  const entries = Object.entries(drafts);
  if (entries.length === 0) return [];
  if (record[group] === undefined) return [{ put: 'key', path: [], key: group, value: drafts }];
  return entries.map(([key, value]): Step => ({ put: 'key', path: [group], key, value }));
}

/** Lesions and marks first met at this visit, declared with it. */
export type Declares = Pick<Partial<CaseDraft>, 'lesions' | 'marks'>;

/**
 * A visit put into an animal's file at its place by date, every other byte of the file kept.
 *
 * Shape:   farm's slug, animal's slug or number, a visit under the keys of the case format → a change to be written
 *          with `commitChange`, or why not; lesions and marks first met there are declared with it. Nothing is written here.
 * Error:   never throws on what is asked for or on what lies in the files; a draft with an unknown key, a wrong word
 *          or a length out of range is refused by the reader itself, with its place in the file as it would be
 * Checked: tests/keep/add-visit.test.ts
 */
export function addVisit(
  keeping: Keeping,
  farm: string,
  animal: string,
  draft: VisitDraft,
  declares: Declares = {},
): Worked {
  return changeIn(openAnimal(keeping, farm, animal), farm, keeping, ({ record }) => ({
    what: terminal('keep.what.visit', { day: draft.date }),
    steps: [
      ...namedSteps(record, 'lesions', declares.lesions),
      ...namedSteps(record, 'marks', declares.marks),
      { put: 'entry', path: ['visits'], index: placeByDate(record.visits, draft), value: draft },
    ],
  }));
}

/**
 * Behind every visit of that day or before; among those of one day by the time of day, where both say one.
 *
 * @example placeByDate([{ date: '2026-01-06' }, { date: '2026-02-03' }], { date: '2026-01-20' }) // → 1
 */
export function placeByDate(
  visits: readonly Pick<Visit, 'date' | 'at'>[],
  visit: Pick<Visit, 'date' | 'at'>,
): number {
  const later = visits.findIndex((other) => !isInOrder(other, visit));
  return later === -1 ? visits.length : later;
}

/** Whether one may appear before the other. */
export function isInOrder(one: Pick<Visit, 'date' | 'at'>, next: Pick<Visit, 'date' | 'at'>): boolean {
  return one.date < next.date || (one.date === next.date && !(one.at && next.at && one.at > next.at));
}
