import { z } from 'zod';

/**
 * How sure a number is: `read` in its source or abstract, `derived` from read figures by sums that
 * are stated, or `judgement`, where no published figure was found and the book says so.
 */
export const sureness = z.enum(['read', 'derived', 'judgement']);

/** The address every number in `shared/` carries. `source` names entries of `shared/sources.json`; empty only for judgement. */
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
