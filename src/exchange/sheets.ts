import type { z } from 'zod';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { longText, slug } from '../record/measures.js';
import { dictionaryTables, type DictionaryWords, saidOf, type TableEntry } from '../reference/dictionary.js';
import { type TableColumn, type Nested, type Table, tableOf } from './table.js';
import { terminal } from '../problem/message.js';

/** A column as it is written: what it is called and what it says. */
export interface SheetColumn extends DictionaryWords {
  readonly name: string;
  /** What may stand in it. */
  readonly schema: z.core.$ZodType;
  readonly required: boolean;
}

/** One table of the export. Its first columns, `keys` of them, tell its rows apart. */
export interface Sheet {
  readonly name: string;
  readonly title: string;
  readonly says: string;
  readonly keys: readonly SheetColumn[];
  readonly columns: readonly (SheetColumn & Pick<TableColumn, 'way' | 'place'>)[];
  readonly parent: Sheet | undefined;
  readonly makes: Nested['makes'] | 'record';
  readonly way: readonly string[];
  readonly nested: readonly Sheet[];
}

const entries: ReadonlyMap<string, readonly [string, TableEntry]> = new Map(
  Object.entries(dictionaryTables).map((named) => [named[1].at, named] as const),
);
const apart = new Set(entries.keys());

const slugColumn = (name: string): SheetColumn => ({
  name,
  ...say(name),
  schema: slug,
  required: true,
});

const ofBusiness = sheetOf(tableOf(business, 'business', apart), { makes: 'record', way: [] }, []);
const ofFarm = sheetOf(tableOf(farm, 'farm', apart), { makes: 'record', way: [] }, [slugColumn('farm-slug')]);
const ofAnimal = sheetOf(
  tableOf(animal, 'animal', apart),
  { makes: 'record', way: [] },
  [...ofFarm.keys, slugColumn('animal-slug')],
  ofFarm,
);

/** The tables of the three kinds of record, with all that stands in them. */
export const rootSheets = { business: ofBusiness, farm: ofFarm, animal: ofAnimal } as const;

/** All tables, each after the one its rows belong to. */
export const sheets: readonly Sheet[] = [ofBusiness, ofFarm, ofAnimal].flatMap(withNested);

function withNested(sheet: Sheet): Sheet[] {
  return [sheet, ...sheet.nested.flatMap(withNested)];
}

function sheetOf(
  { place, columns: laid, nested: inside }: Table,
  { makes, way }: Pick<Sheet, 'makes' | 'way'>,
  keys: readonly SheetColumn[],
  parent?: Sheet,
): Sheet {
  const { name, entry } = namedAt(place, way, parent);
  const { title, says } = entry ?? {
    title: `${parent?.title ?? ''}: ${way.join(' ')}`,
    says: say(place).says,
  };
  const columns = laid.map((column) => ({
    ...column,
    ...say(column.place),
    name: column.name === '' ? (entry?.value ?? 'value') : column.name,
  }));
  const narrative = {
    name: 'narrative',
    ...say('narrative'),
    schema: longText,
    required: false,
    way: ['narrative'],
    place: 'narrative',
  };
  const nested: Sheet[] = [];
  const sheet: Sheet = {
    name,
    title,
    says,
    keys,
    columns: makes === 'record' ? [...columns, narrative] : columns,
    parent,
    makes,
    way,
    nested,
  };
  for (const one of inside) nested.push(nestedSheet(one, sheet));
  return sheet;
}

function nestedSheet(nested: Nested, parent: Sheet): Sheet {
  const { makes, key, way, table } = nested;
  if (!key) return sheetOf(table, nested, parent.keys, parent);
  const { name, entry } = namedAt(table.place, way, parent);
  const says = terminal(`exchange.${makes === 'list' ? 'position' : 'name'}`);
  const own = { name: entry?.key ?? `${name}-no`, says, schema: key, required: true };
  return sheetOf(table, nested, [...parent.keys, own], parent);
}

/** What a table is called; one the dictionary does not know, after where it stands. */
function namedAt(
  place: string,
  way: readonly string[],
  parent: Sheet | undefined,
): { readonly name: string; readonly entry: TableEntry | undefined } {
  const [name, entry] = entries.get(place) ?? [];
  return { name: name ?? [...(parent ? [parent.name] : []), ...way].join('-'), entry };
}

/** A key the dictionary does not know is written all the same; a test asks for its words. */
function say(place: string): DictionaryWords {
  return saidOf(place) ?? { says: '' };
}
