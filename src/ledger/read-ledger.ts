import { messageWords, type Values } from '../reference/words.js';
import { canonicalText, sha256Of } from './canonical.js';
import { beginning, ledgerEntry, type LedgerEntry } from './ledger-entry.js';

/** What is wrong with one line of a ledger. */
export interface LedgerFault {
  /** Counted from 1. */
  readonly line: number;
  readonly what:
    | 'not-json'
    | 'unknown-version'
    | 'not-an-entry'
    | 'edited'
    | 'not-behind'
    | 'refers-wrong'
    /** So much before is wrong that from here on nothing was looked at. */
    | 'not-looked-at';
  /** What was found, for the words of it. */
  readonly values: Values;
}

/** With one fault nothing is proved: after so many the rest is not looked at. */
const mostFaults = 50;

/** A farm's chain of seals. With a fault nothing in it is proof. */
export interface Ledger {
  readonly entries: readonly LedgerEntry[];
  readonly faults: readonly LedgerFault[];
}

/** Of a farm of which nothing was ever sealed. */
export const emptyLedger: Ledger = { entries: [], faults: [] };

/**
 * A ledger's text, every link of its chain looked at.
 *
 * The hash is over an entry's canonical form, so line ends, spaces and the order of keys are free. A chain cannot tell
 * that its tail was cut off or that all of it was written anew: hold it against a head printed elsewhere (`holdsHead`).
 *
 * Shape:   JSON Lines → entries in order, and every fault with its line, up to the fiftieth
 * Error:   never throws on what the text holds
 * Checked: tests/ledger/chain.test.ts
 */
export function readLedger(text: string): Ledger {
  const entries: LedgerEntry[] = [];
  const faults: LedgerFault[] = [];
  const kinds = new Map<number, string>();
  let before: Pick<LedgerEntry, 'number' | 'hash'> = { number: 0, hash: beginning };
  for (const [at, line] of text
    .replace(/^\ufeff/, '')
    .split('\n')
    .entries()) {
    if (line.trim() === '') continue;
    if (faults.length === mostFaults) {
      faults.push({ line: at + 1, what: 'not-looked-at', values: {} });
      break;
    }
    const read = entryIn(line);
    if ('what' in read) {
      const { what, values, entry } = read;
      faults.push({ line: at + 1, what, values });
      if (entry) before = entry;
      continue;
    }
    if (read.prev !== before.hash || read.number !== before.number + 1)
      faults.push({
        line: at + 1,
        what: 'not-behind',
        values: { number: read.number, before: before.number },
      });
    else if (faults.length === 0 && !refersRight(read, kinds))
      faults.push({
        line: at + 1,
        what: 'refers-wrong',
        values: { number: read.number },
      });
    kinds.set(read.number, read.kind);
    entries.push(read);
    before = read;
  }
  return { entries, faults };
}

type NoEntry = Pick<LedgerFault, 'what' | 'values'> & { readonly entry?: LedgerEntry };

function entryIn(line: string): LedgerEntry | NoEntry {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return { what: 'not-json', values: {} };
  }
  const version = typeof value === 'object' && value !== null ? (value as { ledger?: unknown }).ledger : 1;
  if (typeof version === 'number' && version > 1) return { what: 'unknown-version', values: { version } };
  const parsed = ledgerEntry.safeParse(value);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const at = issue?.path.join('.') || messageWords().say('place.shape');
    return { what: 'not-an-entry', values: { at } };
  }
  const entry = parsed.data;
  if (!isAsSealed(line, entry))
    return {
      what: 'edited',
      values: { number: entry.number },
      // The next one is checked against the hash it bears, so that it is not blamed too.
      entry,
    };
  return entry;
}

/** Most lines stand as they were written: then the text before the hash is the very text hashed, and need not be made anew. */
function isAsSealed(line: string, { hash, ...body }: LedgerEntry): boolean {
  const tail = `,"hash":"${hash}"}`;
  if (line.endsWith(tail) && sha256Of(`${line.slice(0, -tail.length)}}`) === hash) return true;
  return sha256Of(canonicalText(body)) === hash && sha256Of(canonicalText(body.content)) === body.sha256;
}

function refersRight(
  { kind, of, visit, names = [], withdraws = [] }: LedgerEntry,
  kinds: ReadonlyMap<number, string>,
): boolean {
  return (
    (of === undefined || kinds.get(of) === kind) &&
    (visit === undefined || kinds.get(visit) === 'visit') &&
    [...names, ...withdraws].every((number) => kinds.has(number))
  );
}

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
