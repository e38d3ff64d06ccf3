import { z } from 'zod';
import type icar from '../../shared/icar-exchange.json';
import type { FixtureEvent, Foot } from '../record/words.js';
import { readShared } from './read-shared.js';

/**
 * What the standard for exchanging animal data calls things, and which keys of the record have a place in it: `source` is what
 * this program is called, `treating` what of the events of a block or a wrap is a treatment, `carried` the places in the record
 * model whose values are carried over (all others are left out, and counted), `leftOut` what the reader learns of that.
 *
 * Source:  shared/icar-exchange.json
 * Checked: tests/exchange/icar.test.ts
 */
export const icarExchange = readShared(
  'icar-exchange.json',
  z.custom<
    typeof icar & {
      readonly positions: Readonly<Record<Foot, string>>;
      readonly doseUnits: Readonly<Record<string, string>>;
      readonly treating: readonly FixtureEvent[];
    }
  >(),
);

/** One of the sentences, with its gaps filled. @example icarSays('claw', { claw: 'outer' }) // → 'outer claw' */
export function icarSays(
  name: keyof typeof icarExchange.says,
  values: Readonly<Record<string, string>> = {},
): string {
  return icarExchange.says[name].replaceAll(/\{(\w+)\}/g, (whole, key: string) => values[key] ?? whole);
}
