import { z } from 'zod';
import { amended } from './amendment.js';
import { calendarDay } from './calendar-day.js';
import { shortName } from './measures.js';
import { claws, feet, lesionCodes, sites, wallLines } from './words.js';

/** A lesion followed in one animal, as declared once; what was found at each visit stands in the visits. */
export const lesion = z.strictObject({
  code: z.enum(lesionCodes),
  foot: z.enum(feet),
  claw: z.enum(claws).optional(),
  site: z.enum(sites).optional(),
  line: z.enum(wallLines).optional(),
  'again-of': shortName.optional(),
  amended,
});
export type Lesion = z.infer<typeof lesion>;

/** A growth mark: a filed notch, or a groove left by a dated event. */
export const mark = z.strictObject({
  foot: z.enum(feet),
  claw: z.enum(claws),
  line: z.enum(wallLines),
  'groove-from': calendarDay.optional(),
  amended,
});
export type Mark = z.infer<typeof mark>;
