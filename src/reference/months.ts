import { z } from 'zod';
import { readShared } from './read-shared.js';
const { months } = readShared(
  'months.json',
  z.strictObject({ about: z.string(), months: z.record(z.string(), z.array(z.string())) }),
);

/** A month by any of its names, in small letters, as its number. @example monthNumbers.get('sept') // → 9 */
export const monthNumbers: ReadonlyMap<string, number> = new Map(
  Object.entries(months).flatMap(([number, names]) => names.map((name) => [name, Number(number)])),
);
