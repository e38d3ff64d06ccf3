import { z } from 'zod';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { slug } from '../record/measures.js';
import type { Practice } from '../record/practice.js';

/** The free text below a record; empty where there is none. */
const narrative = z.string();

/** What `records.json` holds: every record whole, each with the name of its file and the text below it. */
export const records = z.strictObject({
  growdown: z.literal('records'),
  /** Version of this envelope; the records in it are of the case format's own. */
  version: z.literal(1),
  business: z.strictObject({ record: business, narrative }).optional(),
  farms: z.array(
    z.strictObject({
      slug,
      record: farm,
      narrative,
      animals: z.array(z.strictObject({ slug, record: animal, narrative })),
    }),
  ),
});
export type Records = z.infer<typeof records>;

/** What of a practice is written down: all of it, or the farms picked from it. */
export type Written = Pick<Practice, 'business' | 'narrative' | 'farms'>;

/** The records as data. A business of which nothing is written is left out. */
export function recordsOf({ business: own, narrative: text, farms }: Written): Records {
  const hasBusiness = Object.keys(own).length > 0 || text !== '';
  return {
    growdown: 'records',
    version: 1,
    ...(hasBusiness ? { business: { record: own, narrative: text } } : {}),
    farms: farms.map((one) => ({
      slug: one.slug,
      record: one.farm,
      narrative: one.narrative,
      animals: one.cases.map((each) => ({
        slug: each.slug,
        record: each.animal,
        narrative: each.narrative,
      })),
    })),
  };
}

/**
 * The records as JSON text: the same records give the same bytes.
 *
 * Checked: tests/exchange/records-json.test.ts
 * @example recordsAsJson({ business: {}, narrative: '', farms: [] }).startsWith('{') // → true
 */
export function recordsAsJson(written: Written): string {
  return `${JSON.stringify(recordsOf(written), null, 2)}\n`;
}
