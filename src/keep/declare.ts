import type { z } from 'zod';
import type { Animal } from '../record/animal.js';
import type { lesion, mark } from '../record/lesion.js';
import { type Keeping, type Worked, cannot } from './change.js';
import { openAnimal } from './kept-file.js';
import type { Step } from '../record/record-step.js';
import { workOutSteps } from './work-out.js';
import { terminal } from '../problem/message.js';

export type LesionDraft = z.input<typeof lesion>;
export type MarkDraft = z.input<typeof mark>;

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
