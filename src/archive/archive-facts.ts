import { z } from 'zod';
import { calendarDay } from '../record/calendar-day.js';
import { slug } from '../record/measures.js';

/** What `archive.json` says of an archive: what was chosen for it, for a program to read. Keys are permanent. */
export const archiveFacts = z.strictObject({
  /** The version of this form. */
  archive: z.literal(1),
  farm: slug,
  /** The day it was made as on. */
  day: calendarDay,
  period: z.strictObject({ from: calendarDay, to: calendarDay }).optional(),
  location: z.enum(['removed', 'kept']),
  contacts: z.enum(['removed', 'kept']),
  /** How far the farm's chain of seals goes; absent where nothing is sealed. */
  head: z.strictObject({ entries: z.int().min(1), hash: z.string().regex(/^[0-9a-f]{64}$/) }).optional(),
  animals: z.array(slug),
  /** On file, and not in this archive. */
  'other-animals': z.array(slug),
  'left-out': z.array(z.strictObject({ file: z.string(), why: z.string() })),
});
export type ArchiveFacts = z.infer<typeof archiveFacts>;

/** Where it stands under `data/`. */
export const factsPath = 'archive.json';

/** The facts as they lie in the archive. */
export function factsText(facts: ArchiveFacts): string {
  return `${JSON.stringify(facts, null, 2)}\n`;
}
