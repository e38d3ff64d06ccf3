import type { LedgerEntry } from './ledger-entry.js';
import type { Ledger } from './read-ledger.js';

/** One record as the chain knows it: each time it was sealed, oldest first. */
export interface SealedRecord {
  /** The entry that first sealed it; its number names the record. */
  readonly first: LedgerEntry;
  /** Those that stand, `first` among them unless it was withdrawn. */
  readonly standing: readonly LedgerEntry[];
  /** The one that counts; undefined where all were withdrawn. */
  readonly last: LedgerEntry | undefined;
}

/** All records a chain tells of, in the order they were first sealed. */
export function sealedRecords({ entries }: Ledger): SealedRecord[] {
  const withdrawn = new Set(entries.flatMap(({ withdraws = [] }) => withdraws));
  const byFirst = new Map<number, LedgerEntry[]>();
  for (const entry of entries) {
    if (entry.kind === 'withdrawn') continue;
    const of = byFirst.get(entry.of ?? entry.number);
    if (of) of.push(entry);
    else byFirst.set(entry.number, [entry]);
  }
  return [...byFirst.values()].map((all) => {
    const standing = all.filter(({ number }) => !withdrawn.has(number));
    return { first: all[0]!, standing, last: standing.at(-1) };
  });
}
