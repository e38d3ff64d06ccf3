import type { Ledger } from './read-ledger.js';

/** How far a chain goes: whoever holds its head can tell later that nothing before it was changed or cut off. */
export interface Head {
  readonly entries: number;
  /** SHA-256, 64 hexadecimal digits. */
  readonly hash: string;
}

/** Undefined where nothing is sealed. */
export function headOf({ entries }: Ledger): Head | undefined {
  const last = entries.at(-1);
  return last && { entries: last.number, hash: last.hash };
}

/** The first 16 digits in fours, as printed on paper. @example shortHead({ entries: 2, hash: 'abcd1234abcd1234ffff' }) // → 'abcd 1234 abcd 1234' */
export function shortHead({ hash }: Head): string {
  return hash.slice(0, 16).replaceAll(/(.{4})(?=.)/g, '$1 ');
}

/** The fewest digits of a head that are taken for it: a chance hit among a million entries is then below 1 in 10¹³. */
const fewest = 16;

/**
 * The entry whose hash a head is, as printed: 16 digits or more, spaces and capitals free. Undefined where no entry has
 * it: the chain was cut off before it, or written anew.
 *
 * Error: RangeError for a text that is no head
 */
export function holdsHead({ entries }: Ledger, printed: string): Head | undefined {
  const digits = printed.replaceAll(/\s/g, '').toLowerCase();
  if (!/^[0-9a-f]{16,64}$/.test(digits))
    throw new RangeError(`not a head: ${printed}, expected ${fewest} to 64 hexadecimal digits`);
  const found = entries.find(({ hash }) => hash.startsWith(digits));
  return found && { entries: found.number, hash: found.hash };
}
