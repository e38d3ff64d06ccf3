import { ledgerNumbers } from '../reference/numbers.js';
import { fitsSeal } from './fits-seal.js';
import { type Content, type LedgerEntry, sameContent } from './ledger-entry.js';
import type { Sealable } from './sealable.js';
import type { SealedRecord } from './sealed-records.js';

/** What each record of a list was sealed as, and the sealed ones no record is left for. */
export interface Paired {
  /** In the order of the list; undefined where it was never sealed. */
  readonly sealed: readonly (SealedRecord | undefined)[];
  readonly missing: readonly SealedRecord[];
}

/** A record with a seal that counts. */
type Standing = SealedRecord & { readonly last: LedgerEntry };

/**
 * Finds for each record of a list the one it was sealed as. Records bear no number in a case file, and a day may be
 * corrected, so the same words come first, then what has grown or owns a correction, then what is of the same day,
 * then what is like it by half its keys.
 *
 * Checked: tests/ledger/matching.test.ts
 */
export function pairRecords(known: readonly SealedRecord[], now: readonly Sealable[]): Paired {
  const sealed = Array.from<SealedRecord | undefined>({ length: now.length });
  const left = new Set(known.filter((one): one is Standing => one.last !== undefined));
  const take = (at: number, record: Standing): void => {
    sealed[at] = record;
    left.delete(record);
  };
  const inOrder = [...left];
  for (const [at, one] of now.entries()) {
    const beside = inOrder[at];
    if (beside && left.has(beside) && isSame(beside, one)) take(at, beside);
  }
  for (const [at, one] of now.entries()) {
    const same = sealed[at] ? undefined : [...left].find((record) => isSame(record, one));
    if (same) take(at, same);
  }
  if (left.size === 0) return { sealed, missing: [] };
  const likely = now
    .flatMap((one, at) =>
      sealed[at] ? [] : [...left].map((record) => ({ at, record, ...likeness(record, one) })),
    )
    .filter(({ rank }) => rank > 0)
    .toSorted((a, b) => b.rank - a.rank || b.alike - a.alike || a.at - b.at);
  for (const { at, record } of likely) if (!sealed[at] && left.has(record)) take(at, record);
  return { sealed, missing: [...left] };
}

function isSame({ last }: Standing, { content }: Sealable): boolean {
  return sameContent(last.content, content);
}

function likeness({ last }: Standing, now: Sealable): { rank: number; alike: number } {
  const alike = shareAlike(last.content, now.content);
  const sameDay = last.on !== undefined && last.on === now.on;
  const fit = fitsSeal(now.kind, last.content, now.content);
  if (sameDay && fit !== 'differs') return { rank: 5, alike };
  if (fit === 'grown') return { rank: 4, alike };
  if (fit === 'amended' && alike >= ledgerNumbers.alikeCorrected.value) return { rank: 3, alike };
  if (sameDay && last.content['by'] === now.content['by']) return { rank: 2, alike };
  return { rank: alike >= ledgerNumbers.alikeChanged.value ? 1 : 0, alike };
}

/** Of all keys of the two, the share that say the same in both. */
function shareAlike(a: Content, b: Content): number {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)].filter((key) => key !== 'amended'));
  const same = [...keys].filter((key) => sameContent(a[key], b[key]));
  return keys.size === 0 ? 1 : same.length / keys.size;
}
