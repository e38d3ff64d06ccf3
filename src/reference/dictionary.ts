import { z } from 'zod';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { given } from '../record/given.js';
import { placeOf, takes } from '../record/key.js';
import { shortName } from '../record/measures.js';
import { readShared } from './read-shared.js';
import { saidAt, wordsOf } from './words.js';

/** What is said of a key of the record model. */
export interface DictionaryWords {
  readonly says: string;
  /** By the Unified Code for Units of Measure. */
  readonly unit?: string;
  /** The table whose rows it names. */
  readonly to?: string;
}

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

/** The tables an export is laid out in, by name; what the model holds beyond them has tables named after where it is. */
export const dictionaryTables: Readonly<Record<string, TableEntry>> = readShared(
  'dictionary.json',
  z.record(z.string(), tableEntry),
);

const roots = new Map<string, z.core.$ZodType>(Object.entries({ animal, farm, business }));

/**
 * What a key of the record model holds, in a sentence; undefined where the words say nothing of it.
 *
 * Checked: tests/exchange/dictionary.test.ts
 * @example saidOf('animal.visits[].found{}.top')?.unit // → 'mm'
 */
export function saidOf(place: string): DictionaryWords | undefined {
  const words = wordsOf('en-GB');
  const way = place.replaceAll(/[[\]{}]/g, '');
  const said = saidAt(words, 'says', way);
  if (said === undefined) return undefined;
  const [root = '', ...rest] = way.split('.');
  const schema = roots.get(root);
  const { unit } = schema ? placeOf(schema, rest.join('.')) : {};
  const to = schema && takes(schema, rest.join('.'), shortName) ? 'lesions' : undefined;
  return { says: words.say(said), ...given({ unit: unit === 'milkings' ? undefined : unit, to }) };
}
