import { wantedBy, type Wanted } from '../../casefile/wanted.js';
import { animal } from '../../record/animal.js';

/** The keys of an animal that a cell of a list can hold, each with what it may be: text, a day, a whole number, several days. */
export const listKeys: ReadonlyMap<string, Wanted> = new Map(
  Object.entries(animal.shape).flatMap(([key, schema]): [string, Wanted][] => {
    const wanted = wantedBy(schema);
    const of = wanted.kind === 'list' ? wanted.of : wanted;
    return ['text', 'free-text', 'day', 'number'].includes(of.kind) ? [[key, wanted]] : [];
  }),
);

/** What tells one animal from another. */
export const identityKeys = ['animal', 'tag', 'electronic'] as const;

/** By the name of a column: the key it fills, or `''` where it is left out. */
export type ColumnMap = Readonly<Record<string, string>>;

/** A column named like a key is that key's. @example keyOfColumn('Due to calve') // → 'due-to-calve' */
export function keyOfColumn(column: string): string | undefined {
  const asKey = column
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, '-');
  return listKeys.has(asKey) ? asKey : undefined;
}

/** Whether several columns may fill it, as with one column a calving. */
export function takesSeveral(key: string): boolean {
  return listKeys.get(key)?.kind === 'list';
}
