import type { SealedRecord } from './sealed-records.js';

/** All that the chain knows of one animal, under the name it keeps for her through every new number and file name. */
export interface SealedAnimal {
  readonly name: string;
  /** The name of her file when it was last sealed. */
  readonly file: string;
  /** Her number then. */
  readonly number: string | undefined;
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
    const identity = standing.findLast(({ first }) => first.kind === 'identity')?.last;
    const number = identity?.content['animal'];
    return standing.length === 0
      ? []
      : [
          {
            name,
            file: identity?.file ?? name,
            number: typeof number === 'string' ? number : undefined,
            records: standing,
          },
        ];
  });
}
