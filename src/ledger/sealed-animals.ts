import type { SealedRecord } from './sealed-records.js';

/** All that the chain knows of one animal, under the name it keeps for her through every new number and file name. */
export interface SealedAnimal {
  readonly name: string;
  /** The name of her file when it was last sealed. */
  readonly file: string;
  /** Her number then. */
  readonly number: string | undefined;
  /** All names of her file and all numbers of hers that stand sealed. */
  readonly files: ReadonlySet<string>;
  readonly numbers: ReadonlySet<string>;
  readonly records: readonly SealedRecord[];
}

/** The animals of a chain with something left that stands, in the order they were first sealed. */
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
