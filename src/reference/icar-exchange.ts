import { z } from 'zod';
import { feet, fixtureEvents } from '../record/words.js';
import { readShared } from './read-shared.js';

const says = [
  'diagnosis',
  'infected',
  'claw',
  'active',
  'class',
  'amount',
  'until',
  'prescribed-by',
  'nothing',
  'not-recorded',
  'not-known',
  'milkings',
  'Milk',
  'Meat',
] as const;

/**
 * What the standard for exchanging animal data calls things, and which keys of the record have a place in it.
 *
 * Source:  shared/icar-exchange.json
 * Checked: tests/exchange/icar.test.ts
 */
export const icarExchange = readShared(
  'icar-exchange.json',
  z.strictObject({
    note: z.string(),
    /** What this program is called where a record says which system it is from. */
    source: z.string(),
    schemes: z.strictObject({
      tag: z.string(),
      electronic: z.string(),
      number: z.string(),
      holding: z.string(),
      farm: z.string(),
      lesion: z.string(),
    }),
    positions: z.record(z.enum(feet), z.string()),
    /** By the unit as it is written behind a number. */
    doseUnits: z.record(z.string(), z.string()),
    procedures: z.record(z.enum(['trimmed', 'cut-back', 'blocks', 'wraps']), z.string()),
    /** Of what happens to a block or a wrap, what is a treatment. */
    treating: z.array(z.enum(fixtureEvents)),
    says: z.record(z.enum(says), z.string()),
    /** Places in the record model whose values are carried over; all others are left out, and counted. */
    carried: z.array(z.string()),
    /** What the reader of an export is told of what it holds and leaves out, before the count. */
    leftOut: z.array(z.string()),
  }),
);

/** One of the sentences, with its gaps filled. @example icarSays('claw', { claw: 'outer' }) // → 'outer claw' */
export function icarSays(name: (typeof says)[number], values: Readonly<Record<string, string>> = {}): string {
  return icarExchange.says[name].replaceAll(/\{(\w+)\}/g, (whole, key: string) => values[key] ?? whole);
}
