import { isDeepStrictEqual } from 'node:util';
import type { z } from 'zod';
import { slugInstead, slugTrouble } from '../casefile/folder-entries.js';
import { business as businessSchema } from '../record/business.js';
import { farm as farmSchema } from '../record/farm.js';
import { type Keeping, type Worked, cannot } from './change.js';
import { findFolder, openFarm } from './kept-file.js';
import { recordText } from './open-case.js';
import { workedOut, workOutSteps } from './work-out.js';
import { terminal } from '../problem/message.js';

export type FarmDraft = z.input<typeof farmSchema>;
export type BusinessDraft = z.input<typeof businessSchema>;
export type GaitRoundDraft = NonNullable<FarmDraft['gait-rounds']>[number];
export type FootbathDraft = NonNullable<FarmDraft['footbath']>[number];

/** A farm started: its folder with a `farm.md`. One that is there is left alone. */
export function startFarm(keeping: Keeping, slug: string, draft: FarmDraft): Worked {
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return found;
  const trouble = slugTrouble(slug);
  if (trouble) {
    const near = slugInstead(slug);
    return cannot(`keep.farm.no-name${near === undefined ? '' : '-near'}`, {
      slug,
      expected: trouble.expected,
      near: near ?? '',
    });
  }
  const path = `${found.folder}/${slug}/farm.md`;
  const file = `${found.shown}/${slug}/farm.md`;
  if (keeping.files.look(path)) return cannot('keep.farm.there', { file, slug });
  const after = recordText(draft, farmSchema);
  const files = [{ file, path, before: undefined, after }];
  const worked = workedOut({ what: terminal('keep.what.farm', { farm: slug }), farms: [], files }, keeping, {
    among: 'all',
  });
  if (worked.outcome !== 'change') return worked;
  // That it has no animal yet is no news.
  const remarks = worked.change.remarks.filter(({ id }) => id !== 'folder/no-animals');
  return { outcome: 'change', change: { ...worked.change, remarks } };
}

/** `business.md` started where there is none. */
export function startBusiness(keeping: Keeping, draft: BusinessDraft): Worked {
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return found;
  const path = `${found.folder}/business.md`;
  const file = `${found.shown}/business.md`;
  if (keeping.files.look(path)) return cannot('keep.farm.business-there', { file });
  const after = recordText(draft, businessSchema);
  return workedOut(
    { what: terminal('keep.what.business'), farms: [], files: [{ file, path, before: undefined, after }] },
    keeping,
    { among: 'all' },
  );
}

/** A herd round of gait scoring put into `farm.md`, by its day. */
export function addGaitRound(keeping: Keeping, farm: string, draft: GaitRoundDraft): Worked {
  return addToFarm(keeping, farm, 'gait-rounds', draft, (other) => other.date > draft.date);
}

/** A footbath period put into `farm.md`, by the day it began. */
export function addFootbath(keeping: Keeping, farm: string, draft: FootbathDraft): Worked {
  const { from = '' } = draft;
  return addToFarm(keeping, farm, 'footbath', draft, (other) => (other.from ?? '') > from);
}

function addToFarm<K extends 'gait-rounds' | 'footbath'>(
  keeping: Keeping,
  farm: string,
  key: K,
  draft: NonNullable<FarmDraft[K]>[number],
  isLater: (other: NonNullable<FarmDraft[K]>[number]) => boolean,
): Worked {
  const opened = openFarm(keeping, farm);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const what = terminal(`keep.what.${key}`);
  const list = (kept.record[key] ?? []) as NonNullable<FarmDraft[K]>[number][];
  const later = list.findIndex(isLater);
  const index = later === -1 ? list.length : later;
  if (list.some((other) => isDeepStrictEqual(other, draft)))
    return cannot(`keep.farm.same-${key}`, { file: kept.file });
  return workOutSteps(
    { kept, steps: [{ put: 'entry', path: [key], index, value: draft }] },
    { what, farms: [farm] },
    keeping,
  );
}
