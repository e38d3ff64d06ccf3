import type { z } from 'zod';
import type { Animal } from '../record/animal.js';
import type { lesion, mark } from '../record/lesion.js';
import { type Keeping, type Worked, cannot } from './change.js';
import { openAnimal } from './kept-file.js';
import type { Step } from '../record/record-step.js';
import { workOutSteps } from './work-out.js';
import { terminal } from '../problem/message.js';
import type { Visit } from '../record/visit.js';
import type { VisitDraft } from './visit-draft.js';
import type { CaseDraft } from './open-case.js';

type LesionDraft = z.input<typeof lesion>;
type MarkDraft = z.input<typeof mark>;

/** A lesion declared under a name of its own, before or without a visit at which it was found. */
export function declareLesion(
  keeping: Keeping,
  farm: string,
  animal: string,
  name: string,
  draft: LesionDraft,
): Worked {
  return declare(keeping, farm, animal, 'lesions', name, draft);
}

/** A growth mark declared under a name of its own. */
export function declareMark(
  keeping: Keeping,
  farm: string,
  animal: string,
  name: string,
  draft: MarkDraft,
): Worked {
  return declare(keeping, farm, animal, 'marks', name, draft);
}

function declare(
  keeping: Keeping,
  farm: string,
  animal: string,
  group: 'lesions' | 'marks',
  name: string,
  draft: LesionDraft | MarkDraft,
): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  if (kept.record.lesions[name] ?? kept.record.marks?.[name])
    return cannot('keep.declared-already', { name, file: kept.file });
  const what = terminal(`keep.what.${group === 'lesions' ? 'lesion' : 'mark'}`, { name });
  const steps = namedSteps(kept.record, group, { [name]: draft });
  return workOutSteps({ kept, steps }, { what, farms: [farm] }, keeping);
}

/** Each under its name, behind those declared; the group is begun where the file has none. */
export function namedSteps(
  record: Animal,
  group: 'lesions' | 'marks',
  drafts: Readonly<Record<string, LesionDraft | MarkDraft>>,
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
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const index = placeByDate(kept.record.visits, draft);
  const steps: Step[] = [
    ...namedSteps(kept.record, 'lesions', declares.lesions ?? {}),
    ...namedSteps(kept.record, 'marks', declares.marks ?? {}),
    { put: 'entry', path: ['visits'], index, value: draft },
  ];
  return workOutSteps(
    { kept, steps },
    { what: terminal('keep.what.visit', { day: draft.date }), farms: [farm] },
    keeping,
  );
}

/**
 * Behind every visit of that day or before; among those of one day by the time of day, where both say one.
 *
 * @example placeByDate([{ date: '2026-01-06' }, { date: '2026-02-03' }], { date: '2026-01-20' }) // → 1
 */
export function placeByDate(
  visits: readonly Pick<Visit, 'date' | 'at'>[],
  { date, at }: Pick<Visit, 'date' | 'at'>,
): number {
  const later = visits.findIndex(
    (other) =>
      other.date > date ||
      (other.date === date && at !== undefined && other.at !== undefined && other.at > at),
  );
  return later === -1 ? visits.length : later;
}
