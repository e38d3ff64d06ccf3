import type { z } from 'zod';
import { slugInstead, slugTrouble } from '../casefile/folder-entries.js';
import { wantedBy } from '../casefile/wanted.js';
import { animal as animalSchema } from '../record/animal.js';
import { type Keeping, type Worked, cannot } from './change.js';
import { findFarm } from './kept-file.js';
import { inBlock } from './text/write-value.js';
import { workedOut } from './work-out.js';

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
    return cannot(
      `\`${slug}\` cannot be the name of an animal's file, expected ${trouble?.expected ?? 'another name than this'}${near === undefined ? '' : `: \`${near}\` would do, with \`--animal "${slug}"\` for her number`}`,
    );
  }
  const path = `${farm.entry.path}/${slug}.md`;
  if (keeping.files.look(path))
    return cannot(
      `${farm.entry.shown}/${slug}.md is there already and was left as it is; \`growdown visit ${farmSlug}/${slug}\` adds a visit to it. A second animal of that number is \`${farmSlug}/${slug}-2\``,
    );
  const file = {
    file: `${farm.entry.shown}/${slug}.md`,
    path,
    before: undefined,
    after: recordText({ casefile: 1, ...draft }, animalSchema),
  };
  return workedOut({ what: `case of ${draft.animal}`, farms: [farmSlug], files: [file] }, keeping, {
    among: 'all',
  });
}

/** The bytes of a file that begins with this record and has no narrative yet. */
export function recordText(record: Readonly<Record<string, unknown>>, schema: z.ZodType): Uint8Array {
  const text = inBlock(record, wantedBy(schema), 0, { eol: '\n', step: 2 });
  return new TextEncoder().encode(`---\n${text}\n---\n`);
}
