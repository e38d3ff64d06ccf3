import { z } from 'zod';
import { readShared } from './read-shared.js';

/**
 * How sure a number is: `read` in its source or abstract; `derived` from the read figures of its source by sums the
 * note states; `judgement`, where no published figure was found, and a source is only what it leans on; or a
 * `definition`, such as the days of a week, where there is nothing to find out.
 */
const sureness = z.enum(['read', 'derived', 'judgement', 'definition']);

/**
 * The address every number in `shared/` carries. `source` names entries of `shared/sources.json`.
 *
 * Checked: tests/reference/addresses.test.ts
 */
export const address = z.strictObject({
  how: sureness,
  source: z.array(z.string()),
  note: z.string().optional(),
});
export type Address = z.infer<typeof address>;

/** A number with its unit, the animals it was found in, its bracket where known, and its address. */
export const sourcedNumber = z.strictObject({
  value: z.number(),
  unit: z.string(),
  low: z.number().optional(),
  high: z.number().optional(),
  population: z.string().optional(),
  address,
});
export type SourcedNumber = z.infer<typeof sourcedNumber>;

/** Words or days that an address is beside, such as the names of small breeds. */
const sourcedTexts = z.object({ address }).catchall(z.union([z.string(), z.array(z.string())]));

/** What a file of nothing but sourced numbers may hold: numbers in groups, and groups of groups. */
export const sourcedNumbers: z.ZodType = z.lazy(() =>
  z.union([sourcedNumber, sourcedTexts, z.record(z.string(), sourcedNumbers)]),
);

type NumbersIn<T> = T extends { value: number; unit: string }
  ? SourcedNumber
  : T extends object
    ? { readonly [K in keyof T]: NumbersIn<T[K]> }
    : T;

/**
 * The numbers of a file of `shared/`. Its shape is the file's own: what is added there needs only its name in the words.
 *
 * Error:   throws where a value has no unit and address
 * Checked: tests/reference/growth-numbers.test.ts
 */
export function readNumbers<T>(name: string): NumbersIn<T> {
  return readShared(name, sourcedNumbers) as NumbersIn<T>;
}
