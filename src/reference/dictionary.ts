import { z } from 'zod';
import { readShared } from './read-shared.js';

const said = z.strictObject({
  says: z.string(),
  /** By the Unified Code for Units of Measure. */
  unit: z.string().optional(),
  /** The table whose rows it names. */
  to: z.string().optional(),
});
export type Said = z.infer<typeof said>;

const tableEntry = z.strictObject({
  /** Its place in the record model: `[]` for a list's entry, `{}` for one under a name. */
  at: z.string(),
  title: z.string(),
  says: z.string(),
  /** What the column is called that tells its rows apart. */
  key: z.string().optional(),
  /** What the column is called where a row is one value. */
  value: z.string().optional(),
});
export type TableEntry = z.infer<typeof tableEntry>;

const shared = readShared(
  'dictionary.json',
  z.strictObject({ tables: z.record(z.string(), tableEntry), keys: z.record(z.string(), said) }),
);

/** The tables an export is laid out in, by name; what the model holds beyond them has tables named after where it stands. */
export const dictionaryTables: Readonly<Record<string, TableEntry>> = shared.tables;

/** All that is said of keys, by the end of their place. */
export const dictionaryKeys: Readonly<Record<string, Said>> = shared.keys;

/**
 * What a key of the record model holds, in a sentence; undefined where nothing is written down for it.
 *
 * Of several entries the one with the longest end of the place in common: `products[].on` before `on`.
 *
 * Source:  shared/dictionary.json
 * Checked: tests/exchange/dictionary.test.ts
 * @example saidOf('animal.visits[].found{}.top')?.unit // → 'mm'
 */
export function saidOf(place: string): Said | undefined {
  const end = endOf(place);
  return end === undefined ? undefined : shared.keys[end];
}

/** The entry a place is told by. */
export function endOf(place: string): string | undefined {
  const parts = place.split('.');
  return parts.map((_, at) => parts.slice(at).join('.')).find((end) => Object.hasOwn(shared.keys, end));
}
