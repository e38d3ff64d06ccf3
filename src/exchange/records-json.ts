import { z } from 'zod';
import { wantedBy, type Wanted, formFor } from '../casefile/wanted.js';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { longText, slug } from '../record/measures.js';
import type { Practice } from '../record/practice.js';
import { stepInto } from '../casefile/explain/explain-key.js';
import { jsonText } from '../record/signs.js';

/** The free text below a record; absent where there is none. */
const narrative = longText.optional();

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
    ...(hasBusiness ? { business: { record: own, ...narrated(text) } } : {}),
    farms: farms.map((one) => ({
      slug: one.slug,
      record: one.farm,
      ...narrated(one.narrative),
      animals: one.cases.map((each) => ({
        slug: each.slug,
        record: each.animal,
        ...narrated(each.narrative),
      })),
    })),
  };
}

function narrated(text: string): { readonly narrative?: string } {
  return text === '' ? {} : { narrative: text };
}

/**
 * The records as JSON text: the same records give the same bytes, in whatever order their keys were written.
 *
 * Checked: tests/exchange/records-json.test.ts
 * @example recordsAsJson({ business: {}, narrative: '', farms: [] }).startsWith('{') // → true
 */
export function recordsAsJson(written: Written): string {
  return jsonText(inOrder(wantedBy(records), recordsOf(written)));
}

/** A record with its keys in the order of the case format, whatever order they were written in; the user's own names stay in theirs. */
function inOrder(wanted: Wanted | undefined, value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const form = wanted?.kind === 'either' ? formFor(wanted.forms, value) : wanted;
  if (Array.isArray(value)) return value.map((one) => inOrder(stepInto(form, 0), one));
  const order = form?.kind === 'group' ? [...form.keys.keys()] : Object.keys(value);
  return Object.fromEntries(
    order.flatMap((key) => {
      const inner: unknown = Reflect.get(value, key);
      return inner === undefined ? [] : [[key, inOrder(stepInto(form, key), inner)]];
    }),
  );
}
