import { z } from 'zod';

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
