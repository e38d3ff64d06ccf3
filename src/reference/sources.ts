import { z } from 'zod';
import { readShared } from './read-shared.js';

/** A piece of published work or an open standard. Only details that were seen are written; an absent one is not known here. */
export const publishedSource = z.strictObject({
  authors: z.string().optional(),
  year: z.int().optional(),
  title: z.string().optional(),
  journal: z.string().optional(),
  doi: z
    .string()
    .regex(/^10\.\d{4,}\//)
    .optional(),
  note: z.string().optional(),
});
export type PublishedSource = z.infer<typeof publishedSource>;

/** Every source that an address in `shared/` may name, by its id. */
export const publishedSources: Readonly<Record<string, PublishedSource>> = readShared(
  'sources.json',
  z.record(z.string(), publishedSource),
);
