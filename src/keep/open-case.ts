import type { z } from 'zod';
import { slugInstead, slugTrouble } from '../casefile/folder-entries.js';
import { wantedBy } from '../casefile/wanted.js';
import { animal as animalSchema } from '../record/animal.js';
import { type Keeping, type Worked, cannot } from './change.js';
import { findFarm } from './kept-file.js';
import { inBlock } from './text/write-value.js';
import { workedOut } from './work-out.js';
import { terminal } from '../problem/message.js';

/** An animal as she is first written down: identity, lesions, marks and her first visit, under the keys of the case format. */
export type CaseDraft = Omit<z.input<typeof animalSchema>, 'casefile'>;

/**
 * A case opened: a new file for an animal.
 *
 * Error:   a file of that name, of whatever kind, is left alone: a second animal of one number is `2086-2`
 * Checked: tests/keep/other-changes.test.ts
 */
export function openCase(keeping: Keeping, farmSlug: string, slug: string, draft: CaseDraft): Worked {
  const found = findFarm(keeping, farmSlug);
  if (found.outcome !== 'found') return found;
  const { farm } = found;
  const trouble = slugTrouble(slug);
  if (trouble || ['farm', 'business', 'readme'].includes(slug)) {
    const near = trouble && slugInstead(slug);
    const way = !trouble ? '-kept' : near === undefined ? '' : '-near';
    return cannot(`keep.case.no-name${way}`, { slug, expected: trouble?.expected ?? '', near: near ?? '' });
  }
  const path = `${farm.entry.path}/${slug}.md`;
  const file = `${farm.entry.shown}/${slug}.md`;
  if (keeping.files.look(path)) return cannot('keep.case.there', { file, animal: `${farmSlug}/${slug}` });
  const change = {
    file,
    path,
    before: undefined,
    after: recordText({ casefile: 1, ...draft }, animalSchema),
  };
  const what = terminal('keep.what.case', { animal: draft.animal });
  return workedOut({ what, farms: [farmSlug], files: [change] }, keeping, { among: 'all' });
}

/** The bytes of a file that begins with this record and has no narrative yet. */
export function recordText(record: Readonly<Record<string, unknown>>, schema: z.ZodType): Uint8Array {
  const text = inBlock(record, wantedBy(schema), 0, { eol: '\n', step: 2 });
  return new TextEncoder().encode(`---\n${text}\n---\n`);
}
