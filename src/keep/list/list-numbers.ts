import { z } from 'zod';
import { readShared } from '../../reference/read-shared.js';

/** How a list of animals is read: `shared/animal-list.json`. */
export const listNumbers = readShared(
  'animal-list.json',
  z.strictObject({
    about: z.string(),
    separators: z.array(z.string().length(1)),
    sameDays: z.strictObject({ value: z.int(), unit: z.literal('days'), note: z.string() }),
  }),
);
