import { z } from 'zod';
import { readShared } from './read-shared.js';

/**
 * A piece of published work, a law or an open standard, with what a reader needs to find it: who, when, and a title or a
 * journal. What cannot be found so is no source: a number that leans on it is called a judgement.
 *
 * Checked: tests/reference/addresses.test.ts
 */
export const publishedSource = z
  .strictObject({
    authors: z.string(),
    year: z.int(),
    title: z.string().optional(),
    journal: z.string().optional(),
    doi: z
      .string()
      .regex(/^10\.\d{4,}\//)
      .optional(),
    note: z.string().optional(),
  })
  .refine(({ title, journal }) => title !== undefined || journal !== undefined);

/** Every source that an address in `shared/` may name, by its id. */
export const publishedSources: Readonly<Record<string, z.infer<typeof publishedSource>>> = readShared(
  'sources.json',
  z.record(z.string(), publishedSource),
);

/** Enough to find it in the list of sources. @example shortSource('leach-2012') // → 'Leach et al. 2012' */
export function shortSource(id: string): string {
  const found = publishedSources[id];
  if (!found) throw new RangeError(`no source "${id}" in shared/sources.json`);
  return `${found.authors} ${found.year}`;
}
