import { z } from 'zod';
import type { ProductUse } from '../record/visit.js';
import { readShared } from './read-shared.js';
import { address } from './sourced.js';

const groups = ['antimicrobial', 'anti-inflammatory', 'pain relief'] as const;
export type SubstanceGroup = (typeof groups)[number];

/** An active substance that makes a product a medicine. */
export type Substance = Readonly<{ name: string; group: SubstanceGroup }>;

const group = z.strictObject({ atcvet: z.array(z.string()), address, names: z.array(z.string()) });
const shared = readShared(
  'substances.json',
  z.strictObject({
    about: z.string(),
    spelling: z.record(z.string(), z.string()),
    groups: z.record(z.enum(groups), group),
  }),
);

const groupOf = new Map(groups.flatMap((of) => shared.groups[of].names.map((name) => [name, of] as const)));
/** At the start of a word. */
const anyName = new RegExp(`(?<![a-z])(?:${[...groupOf.keys()].join('|')})`, 'g');

/**
 * The medicines' substances that a text names, whatever salt, strength or British spelling it is written in.
 *
 * Source:  shared/substances.json
 * Checked: tests/reference/substances.test.ts
 * @example substancesIn('Oxytetracycline hydrochloride 3 %') // → [{ name: 'oxytetracycline', group: 'antimicrobial' }]
 */
export function substancesIn(text: string): Substance[] {
  const plain = Object.entries(shared.spelling).reduce(
    (written, [british, international]) => written.replaceAll(british, international),
    text.toLowerCase(),
  );
  return [...new Set(plain.match(anyName))].map((name) => ({ name, group: groupOf.get(name)! }));
}

/** The medicines' substances that a product's active substance or name says. */
export function substancesOf({ active = '', product }: Pick<ProductUse, 'active' | 'product'>): Substance[] {
  return substancesIn(`${active} ${product}`);
}

/** Whether it is a medicine or may be one: unless its class says no, and whatever its class says of a medicine's substance. */
export function isMedicine(use: ProductUse): boolean {
  return use.class !== 'not a medicine' || substancesOf(use).length > 0;
}
