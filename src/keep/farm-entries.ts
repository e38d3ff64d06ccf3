import { isDeepStrictEqual } from 'node:util';
import type { z } from 'zod';
import { slugInstead, slugTrouble } from '../casefile/folder-entries.js';
import { business as businessSchema } from '../record/business.js';
import { farm as farmSchema } from '../record/farm.js';
import { type Keeping, type Worked, cannot } from './change.js';
import { findFolder, openFarm } from './kept-file.js';
import { recordText } from './open-case.js';
import { changeIn, workedOut } from './work-out.js';
import { terminal } from '../problem/message.js';

export type FarmDraft = z.input<typeof farmSchema>;
export type BusinessDraft = z.input<typeof businessSchema>;
export type GaitRoundDraft = NonNullable<FarmDraft['gait-rounds']>[number];
export type FootbathDraft = NonNullable<FarmDraft['footbath']>[number];

/** A farm started: its folder with a `farm.md`. One that is there is left alone. */
export function startFarm(keeping: Keeping, slug: string, draft: FarmDraft): Worked {
  const trouble = slugTrouble(slug);
  if (!trouble)
    return started(keeping, `${slug}/farm.md`, recordText(draft, farmSchema), {
      what: terminal('keep.what.farm', { farm: slug }),
      there: (file) => cannot('keep.farm.there', { file, slug }),
    });
  const found = findFolder(keeping);
  const near = slugInstead(slug);
  const said = { slug, expected: trouble.expected, near: near ?? '' };
  return found.outcome === 'found'
    ? cannot(`keep.farm.no-name${near === undefined ? '' : '-near'}`, said)
    : found;
}

/** `business.md` started where there is none. */
export function startBusiness(keeping: Keeping, draft: BusinessDraft): Worked {
  return started(keeping, 'business.md', recordText(draft, businessSchema), {
    what: terminal('keep.what.business'),
    there: (file) => cannot('keep.farm.business-there', { file }),
  });
}

function started(
  keeping: Keeping,
  name: string,
  after: Uint8Array,
  { what, there }: { readonly what: string; readonly there: (file: string) => Worked },
): Worked {
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return found;
  const [path, file] = [`${found.folder}/${name}`, `${found.shown}/${name}`];
  if (keeping.files.look(path)) return there(file);
  const files = [{ file, path, before: undefined, after }];
  const worked = workedOut({ what, farms: [], files }, keeping, { among: 'all' });
  if (worked.outcome !== 'change') return worked;
  // That a farm has no animal yet is no news.
  const remarks = worked.change.remarks.filter(({ id }) => id !== 'folder/no-animals');
  return { outcome: 'change', change: { ...worked.change, remarks } };
}

/** A herd round of gait scoring put into `farm.md`, by its day. */
export function addGaitRound(keeping: Keeping, farm: string, draft: GaitRoundDraft): Worked {
  return addToFarm(keeping, farm, 'gait-rounds', draft, ({ date }) => date);
}

/** A footbath period put into `farm.md`, by the day it began. */
export function addFootbath(keeping: Keeping, farm: string, draft: FootbathDraft): Worked {
  return addToFarm(keeping, farm, 'footbath', draft, ({ from = '' }) => from);
}

function addToFarm<K extends 'gait-rounds' | 'footbath', Entry extends NonNullable<FarmDraft[K]>[number]>(
  keeping: Keeping,
  farm: string,
  key: K,
  draft: Entry,
  dayOf: (one: Entry) => string,
): Worked {
  return changeIn(openFarm(keeping, farm), farm, keeping, ({ record, file }) => {
    const list = (record[key] ?? []) as Entry[];
    if (list.some((other) => isDeepStrictEqual(other, draft)))
      return cannot(`keep.farm.same-${key}`, { file });
    const later = list.findIndex((other) => dayOf(other) > dayOf(draft));
    const index = later === -1 ? list.length : later;
    return {
      what: terminal(`keep.what.${key}`),
      steps: [{ put: 'entry', path: [key], index, value: draft }],
    };
  });
}
