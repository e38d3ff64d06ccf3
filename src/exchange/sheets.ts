import { z } from 'zod';
import { shortName, longText, slug } from '../record/measures.js';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { dictionaryTables, type DictionaryWords, saidOf, type TableEntry } from '../reference/dictionary.js';
import { terminal } from '../problem/message.js';
import type { Written } from './records-json.js';

/** One column of a table: the way to its value from the group a row is made of, and what stands there. */
interface TableColumn {
  readonly name: string;
  /** Keys from the row's group on; empty where the row is the value itself. */
  readonly way: readonly string[];
  /** The way to it in the record model, such as `animal.visits[].found{}.top`. */
  readonly place: string;
  /** What the model takes there. */
  readonly schema: z.core.$ZodType;
  readonly required: boolean;
}

/** What makes rows inside a row: a list, names of the user's own choice, or one group that has a table of its own. */
interface Nested {
  readonly makes: 'list' | 'named' | 'one';
  readonly way: readonly string[];
  /** What tells the rows of a parent apart; undefined for one group alone. */
  readonly key: z.core.$ZodType | undefined;
  readonly table: Table;
}

/** The record model seen as a table: its columns, and the tables of what stands inside a row. */
export interface Table {
  readonly place: string;
  readonly columns: readonly TableColumn[];
  readonly nested: readonly Nested[];
}

const position = z.int().min(1);
const digits = z.int().min(0);

/**
 * Lays the record model out as tables, one value a cell: plain values and single groups are columns; lists, and
 * entries under names of the user's own, are tables of their own. Made from the schema itself, so that a key new in
 * the model has its column or its table without a word here.
 *
 * Shape:   `apart` are places of single groups that are to be tables too, such as `animal.visits[].vet`
 * Checked: tests/exchange/dictionary.test.ts, tests/exchange/tables.test.ts
 */
export function tableOf(schema: z.core.$ZodType, place: string, apart: ReadonlySet<string>): Table {
  const columns: TableColumn[] = [];
  const nested: Nested[] = [];
  const lay = (of: z.core.$ZodType, way: readonly string[], at: string, required: boolean): void => {
    const bare = tabular(of);
    const inner = (schemaInside: z.core.$ZodType, where: string) => tableOf(schemaInside, where, apart);
    if (bare instanceof z.ZodArray)
      nested.push({ makes: 'list', way, key: position, table: inner(bare.element, `${at}[]`) });
    else if (bare instanceof z.ZodRecord)
      nested.push({ makes: 'named', way, key: keyOf(bare), table: inner(bare.valueType, `${at}{}`) });
    else if (bare instanceof z.ZodObject && way.length > 0 && apart.has(at))
      nested.push({ makes: 'one', way, key: undefined, table: inner(bare, at) });
    else if (bare instanceof z.ZodObject)
      for (const [key, value] of Object.entries(bare.shape))
        lay(value, [...way, key], `${at}.${key}`, required && !(value instanceof z.ZodOptional));
    else columns.push({ name: way.join('-'), way, place: at, schema: bare, required });
  };
  lay(schema, [], place, true);
  return { place, columns, nested };
}

/** Where a value may stand alone or as a list over time (a herd, a scale), it is the list: one row then holds always. */
function tabular(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodOptional) return tabular(schema.unwrap());
  if (!(schema instanceof z.ZodUnion)) return schema;
  return schema.options.find((option) => option instanceof z.ZodArray) ?? schema;
}

/** Names are words of a list, names of the user's own, or digits. */
function keyOf({ keyType }: z.ZodRecord): z.core.$ZodType {
  return keyType instanceof z.ZodEnum || keyType === shortName ? keyType : digits;
}

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
const rootSheets = { business: ofBusiness, farm: ofFarm, animal: ofAnimal } as const;

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

/** What stands in a cell; undefined where it is not known. */
export type TableCell = string | number | boolean | undefined;
type Row = readonly TableCell[];

/** All rows of all tables that hold any, in the order of the records. */
export function rowsOf({ business: trimmer, narrative, farms }: Written): ReadonlyMap<Sheet, readonly Row[]> {
  const rows = new Map<Sheet, Row[]>();
  const add = (sheet: Sheet, keys: Row, value: unknown): void => {
    const held = rows.get(sheet) ?? [];
    rows.set(sheet, held);
    held.push([...keys, ...sheet.columns.map(({ way }) => asCell(valueAt(value, way)))]);
    for (const nested of sheet.nested)
      for (const [key, inner] of entriesOf(nested, valueAt(value, nested.way)))
        add(nested, key === undefined ? keys : [...keys, key], inner);
  };
  if (Object.keys(trimmer).length > 0 || narrative !== '')
    add(rootSheets.business, [], { ...trimmer, narrative });
  for (const one of farms) {
    add(rootSheets.farm, [one.slug], { ...one.farm, narrative: one.narrative });
    for (const each of one.cases)
      add(rootSheets.animal, [one.slug, each.slug], { ...each.animal, narrative: each.narrative });
  }
  return rows;
}

function entriesOf({ makes, columns }: Sheet, value: unknown): (readonly [TableCell, unknown])[] {
  if (value === undefined) return [];
  if (makes === 'one') return [[undefined, value]];
  if (makes === 'named') return Object.entries(value as object);
  if (Array.isArray(value)) return value.map((one, index) => [index + 1, one] as const);
  // Written once, it holds always: a list of one. A word alone is what an entry must say.
  const must = columns.find(({ required }) => required)?.way[0] ?? '';
  return [[1, typeof value === 'object' ? value : { [must]: value }]];
}

function valueAt(value: unknown, way: readonly string[]): unknown {
  return way.reduce<unknown>(
    (inner, key) => (typeof inner === 'object' && inner !== null ? Reflect.get(inner, key) : undefined),
    value,
  );
}

function asCell(value: unknown): TableCell {
  if (value === '' || value === undefined) return undefined;
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return value;
  throw new TypeError(`no cell for a value of the type ${typeof value}`);
}
