import type { z } from 'zod';
import type { visit } from '../record/visit.js';

/**
 * A visit as somebody gives it, before it is in a file: the plain object its front matter would hold, under the very
 * keys of the case format. Flags, questions, notes and forms all make one of these; `addVisit` takes it.
 *
 * Absent is unknown: a key that was not answered is left out, never filled in.
 */
export type VisitDraft = z.input<typeof visit>;
