import { canonicalText, sha256Of } from './canonical.js';
import { beginning, type LedgerEntry } from './ledger-entry.js';

/** An entry before it has its place in the chain. */
export type Draft = Omit<LedgerEntry, 'ledger' | 'number' | 'sha256' | 'prev' | 'hash'>;

/** An entry in its place behind another; the first where none is before. */
export function chained(draft: Draft, before: LedgerEntry | undefined): LedgerEntry {
  const body = {
    ledger: 1 as const,
    number: (before?.number ?? 0) + 1,
    ...draft,
    sha256: sha256Of(canonicalText(draft.content)),
    prev: before?.hash ?? beginning,
  };
  return { ...body, hash: sha256Of(canonicalText(body)) };
}

/** An entry as its line: canonical, with the hash put behind, so that the rest of the line is the very text it is the hash of. */
export function entryLine({ hash, ...body }: LedgerEntry): string {
  return `${canonicalText(body).slice(0, -1)},"hash":"${hash}"}`;
}
