import { z } from 'zod';
import { lengthMm, longText, shortName } from './measures.js';
import { ddStages, lesionCodes, lesionStates, signs, tools, topFoundWords } from './words.js';

/**
 * What was found of one lesion or mark at one visit. Lengths in mm.
 *
 * Which keys may stand together depends on the lesion's code; that is checked between
 * declaration and finding, not here.
 */
export const found = z.strictObject({
  state: z.enum(lesionStates).optional(),
  stage: z.enum(ddStages).optional(),
  top: lengthMm.optional(),
  'top-found': z.enum(topFoundWords).optional(),
  wall: lengthMm.optional(),
  'wall-at': z.enum(['beside']).optional(),
  'wall-lowered': z.boolean().optional(),
  'wall-tool': z.enum(tools).optional(),
  width: lengthMm.optional(),
  length: lengthMm.optional(),
  depth: lengthMm.optional(),
  distance: lengthMm.optional(),
  tool: z.enum(tools).optional(),
  signs: z.array(z.enum(signs)).optional(),
  gone: z.array(z.enum(signs)).optional(),
  code: z.enum(lesionCodes).optional(),
  infected: z.boolean().optional(),
  'ran-up': z.boolean().optional(),
  'opened-further': z.boolean().optional(),
  joined: shortName.optional(),
  lifted: z.boolean().optional(),
  note: longText.optional(),
});
/** What one visit found of one lesion or mark. */
export type Found = z.infer<typeof found>;
