import type { LedgerEntry } from './ledger-entry.js';
import type { Ledger } from './read-ledger.js';

/** One record as the chain knows it: each time it was sealed, oldest first. */
export interface SealedRecord {
  /** The entry that first sealed it; its number names the record. */
  readonly first: LedgerEntry;
  /** Those that still count, `first` among them unless it was withdrawn. */
  readonly standing: readonly LedgerEntry[];
  /** The one that counts; undefined where all were withdrawn. */
  readonly last: LedgerEntry | undefined;
}

/** All records a chain describes, in the order they were first sealed. */
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

/** All that the chain knows of one animal, under the name it keeps for her through every new number and file name. */
export interface SealedAnimal {
  readonly name: string;
  /** The name of her file when it was last sealed. */
  readonly file: string;
  /** Her number then. */
  readonly number: string | undefined;
  /** All names of her file and all numbers of hers that are sealed. */
  readonly files: ReadonlySet<string>;
  readonly numbers: ReadonlySet<string>;
  readonly records: readonly SealedRecord[];
}

/** The animals of a chain with something still sealed, in the order they were first sealed. */
export function sealedAnimals(records: readonly SealedRecord[]): SealedAnimal[] {
  const byName = new Map<string, SealedRecord[]>();
  for (const record of records) {
    const { animal } = record.first;
    if (animal !== undefined) byName.set(animal, [...(byName.get(animal) ?? []), record]);
  }
  return [...byName].flatMap(([name, all]) => {
    const standing = all.filter(({ last }) => last !== undefined);
    const identities = standing.flatMap((one) => (one.first.kind === 'identity' ? one.standing : []));
    const files = [name, ...identities.flatMap(({ file }) => file ?? [])];
    const numbers = identities.flatMap(({ content: { animal } }) =>
      typeof animal === 'string' ? animal : [],
    );
    const her = {
      name,
      file: files.at(-1)!,
      number: numbers.at(-1),
      files: new Set(files),
      numbers: new Set(numbers),
      records: standing,
    };
    return standing.length === 0 ? [] : [her];
  });
}
