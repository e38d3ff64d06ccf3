import { z } from 'zod';
import { shortName, longText, slug } from '../record/measures.js';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { dictionaryTables, type DictionaryWords, saidOf } from '../reference/dictionary.js';
import { terminal } from '../problem/message.js';
import type { Written } from './records-json.js';

/** A column as it is written: what it is called and what it says. */
export interface SheetColumn extends DictionaryWords {
  readonly name: string;
  /** What may appear in it. */
  readonly schema: z.core.$ZodType;
  readonly required: boolean;
}

/** A column with the keys to its value from the row's group on, none where the row is the value, and its place in the model. */
interface ValueColumn extends SheetColumn {
  readonly way: readonly string[];
  /** Such as `animal.visits[].found{}.top`. */
  readonly place: string;
}

/** One table of the export. Its first columns, `keys`, tell its rows apart. */
export interface Sheet {
  readonly name: string;
  readonly title: string;
  readonly says: string;
  readonly place: string;
  readonly keys: readonly SheetColumn[];
  readonly columns: readonly ValueColumn[];
  readonly parent: Sheet | undefined;
  /** What makes its rows: a record, a list, names of the user's own choice, or one group that has a table of its own. */
  readonly makes: 'record' | 'list' | 'named' | 'one';
  readonly way: readonly string[];
  readonly nested: readonly Sheet[];
}

const position = z.int().min(1);
const digits = z.int().min(0);

const entries = new Map(Object.entries(dictionaryTables).map((named) => [named[1].at, named] as const));

/**
 * Lays a part of the record model out as a table, one value a cell: plain values and single groups are columns; lists,
 * entries under names of the user's own, and groups the dictionary keeps separate are tables of their own. Made from the
 * schema itself, so that a key new in the model has its column or its table without a word here; what the dictionary does
 * not know is called after where it is, and a test asks for its words.
 *
 * Shape:   `key` identifies the rows of a parent; without it there is one row, or the parent's keys distinguish them
 * Checked: tests/exchange/dictionary.test.ts, tests/exchange/tables.test.ts
 */
function sheetOf(
  whole: z.core.$ZodType,
  place: string,
  {
    makes,
    way,
    parent,
    keys = parent?.keys ?? [],
  }: Pick<Sheet, 'makes' | 'way' | 'parent'> & Partial<Pick<Sheet, 'keys'>>,
  key?: z.core.$ZodType,
): Sheet {
  const [known, entry] = entries.get(place) ?? [];
  const name = known ?? [...(parent ? [parent.name] : []), ...way].join('-');
  const says = terminal(`exchange.${makes === 'list' ? 'position' : 'name'}`);
  const own = key && { name: entry?.key ?? `${name}-no`, says, schema: key, required: true };
  const columns: ValueColumn[] = [];
  const nested: Sheet[] = [];
  const sheet: Sheet = {
    name,
    title: entry?.title ?? `${parent?.title ?? ''}: ${way.join(' ')}`,
    says: entry?.says ?? say(place).says,
    place,
    keys: own ? [...keys, own] : keys,
    columns,
    parent,
    makes,
    way,
    nested,
  };
  const lay = (of: z.core.$ZodType, inner: readonly string[], at: string, required: boolean): void => {
    const schema = tabular(of);
    const here = { way: inner, parent: sheet };
    if (schema instanceof z.ZodArray)
      nested.push(sheetOf(schema.element, `${at}[]`, { makes: 'list', ...here }, position));
    else if (schema instanceof z.ZodRecord)
      nested.push(sheetOf(schema.valueType, `${at}{}`, { makes: 'named', ...here }, keyOf(schema)));
    else if (schema instanceof z.ZodObject && inner.length > 0 && entries.has(at))
      nested.push(sheetOf(schema, at, { makes: 'one', ...here }));
    else if (schema instanceof z.ZodObject)
      for (const [one, value] of Object.entries(schema.shape))
        lay(value, [...inner, one], `${at}.${one}`, required && !(value instanceof z.ZodOptional));
    else {
      const called = inner.join('-') || (entry?.value ?? 'value');
      columns.push({ ...say(at), name: called, schema, required, way: inner, place: at });
    }
  };
  lay(whole, [], place, true);
  if (makes === 'record')
    columns.push({ ...column('narrative', longText, false), way: ['narrative'], place: 'narrative' });
  return sheet;
}

function column(name: string, schema: z.core.$ZodType, required: boolean): SheetColumn {
  return { name, ...say(name), schema, required };
}

function say(place: string): DictionaryWords {
  return saidOf(place) ?? { says: '' };
}

/** Where a value may appear alone or as a list over time (a herd, a scale), it is the list: one row then holds always. */
function tabular(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodOptional) return tabular(schema.unwrap());
  if (!(schema instanceof z.ZodUnion)) return schema;
  return schema.options.find((option) => option instanceof z.ZodArray) ?? schema;
}

/** Names are words of a list, names of the user's own, or digits. */
function keyOf({ keyType }: z.ZodRecord): z.core.$ZodType {
  return keyType instanceof z.ZodEnum || keyType === shortName ? keyType : digits;
}

const record = { makes: 'record', way: [], parent: undefined } as const;
const ofBusiness = sheetOf(business, 'business', record);
const ofFarm = sheetOf(farm, 'farm', { ...record, keys: [column('farm-slug', slug, true)] });
const ofAnimal = sheetOf(animal, 'animal', {
  ...record,
  parent: ofFarm,
  keys: [...ofFarm.keys, column('animal-slug', slug, true)],
});

/** All tables, each after the one its rows belong to. */
export const sheets: readonly Sheet[] = [ofBusiness, ofFarm, ofAnimal].flatMap(withNested);

function withNested(sheet: Sheet): Sheet[] {
  return [sheet, ...sheet.nested.flatMap(withNested)];
}

/** What is in a cell; undefined where it is not known. */
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
  if (Object.keys(trimmer).length > 0 || narrative !== '') add(ofBusiness, [], { ...trimmer, narrative });
  for (const one of farms) {
    add(ofFarm, [one.slug], { ...one.farm, narrative: one.narrative });
    for (const each of one.cases)
      add(ofAnimal, [one.slug, each.slug], { ...each.animal, narrative: each.narrative });
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
