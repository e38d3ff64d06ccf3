import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

const keys = z.array(z.string());
const shape = z.strictObject({
  about: z.string(),
  parts: z.array(z.strictObject({ name: z.string(), keys, folded: keys })),
  leftOut: z.record(z.string(), z.string()),
  room: z.record(z.string(), z.int()),
  mostRoom: z.int(),
  /** What is due so soon stands among what is due. */
  dueWithinDays: z.int(),
  newLesions: z.int(),
  spans: z.record(z.string(), z.array(z.string())),
  /** By key: the lists of words its values are told by, with a space between. */
  vocabulary: z.record(z.string(), z.string()),
  units: z.record(z.string(), z.string()),
});

/** How the form of a visit is laid out: `shared/form.json`. */
export const formLayout = readShared('form.json', shape);
