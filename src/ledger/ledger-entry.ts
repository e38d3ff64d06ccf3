import { z } from 'zod';
import { calendarDay } from '../record/calendar-day.js';
import { slug, text } from '../record/measures.js';
import type { RecordPath } from '../problem/problem.js';
import { canonicalText, sha256Of } from './canonical.js';

/** What is sealed; each is a record of its own. `withdrawn` takes entries back in the open. */
const ledgerKinds = [
  'scales',
  'identity',
  'lesion',
  'mark',
  'episode',
  'visit',
  'picture',
  'gait-round',
  'footbath',
  'plan',
  'withdrawn',
] as const;
export type LedgerKind = (typeof ledgerKinds)[number];

const entryNumber = z.int().min(1);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** What a record says, under the keys of the case format. */
export type Content = Readonly<Record<string, unknown>>;

/** One line of a farm's ledger. Keys are permanent: ledgers of any age are read for ever. */
export const ledgerEntry = z.strictObject({
  /** The version of this form. */
  ledger: z.literal(1),
  /** Its place in the chain, from 1. */
  number: entryNumber,
  /** The day the program sealed it, by the machine's clock. */
  sealed: calendarDay,
  kind: z.enum(ledgerKinds),
  /** The name her file had when she was first sealed, with `~2` behind it where another was sealed under it before. */
  animal: text.optional(),
  /** Of an identity: the name of her file when it was sealed. */
  file: slug.optional(),
  /** The day of what the record says, where it says one. */
  on: calendarDay.optional(),
  /** The entry that first sealed this record; absent where this one does. */
  of: entryNumber.optional(),
  /** Of a picture: the entry that first sealed its visit. */
  visit: entryNumber.optional(),
  /** Of a visit: the entries of what it is based on: identity, lesions, marks and scales, as they stood. */
  names: z.array(entryNumber).optional(),
  /** Of a withdrawal: the entries taken back. */
  withdraws: z.array(entryNumber).min(1).optional(),
  /** What the record said; of a withdrawal, who and why. */
  content: z.record(z.string(), z.unknown()),
  /** SHA-256 of the content in its canonical form, RFC 8785. */
  sha256,
  /** The hash of the entry before; 64 zeros in the first. */
  prev: sha256,
  /** SHA-256 of this entry without `hash` in its canonical form, RFC 8785. */
  hash: sha256,
});
export type LedgerEntry = z.infer<typeof ledgerEntry>;

/** The `prev` of the first entry. */
export const beginning = '0'.repeat(64);

/** Whether two values say the same, whatever the order of their keys; a key that holds nothing is not there. */
export function sameContent(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b))
    return (
      Array.isArray(a) &&
      Array.isArray(b) &&
      a.length === b.length &&
      a.every((one, at) => sameContent(one, b[at]))
    );
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(one).filter((key) => one[key] !== undefined);
  return (
    keys.length === Object.keys(other).filter((key) => other[key] !== undefined).length &&
    keys.every((key) => Object.hasOwn(other, key) && sameContent(one[key], other[key]))
  );
}

/** One place where two contents differ; undefined where nothing is there. */
export interface ContentDifference {
  readonly path: RecordPath;
  readonly before: unknown;
  readonly now: unknown;
}

/** Where two contents differ, as deep as both go, in the order of their keys. Their `amended` is passed over. */
export function contentDifferences(before: unknown, now: unknown): ContentDifference[] {
  return differences(before, now, []).filter(({ path }) => path[0] !== 'amended');
}

function differences(before: unknown, now: unknown, path: RecordPath): ContentDifference[] {
  if (sameContent(before, now)) return [];
  if (Array.isArray(before) && Array.isArray(now)) {
    if (![...before, ...now].every((one) => isGroup(one))) return [{ path, before, now }];
    const longest = Array.from({ length: Math.max(before.length, now.length) }, (_, at) => at);
    return longest.flatMap((at) => differences(before[at], now[at], [...path, at]));
  }
  if (!isGroup(before) || !isGroup(now)) return [{ path, before, now }];
  const keys = new Set([...Object.keys(before), ...Object.keys(now)]);
  return [...keys].toSorted().flatMap((key) => differences(before[key], now[key], [...path, key]));
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

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
