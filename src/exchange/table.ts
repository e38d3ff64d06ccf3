import { z } from 'zod';
import { shortName } from '../record/measures.js';

/** One column of a table: the way to its value from the group a row is made of, and what stands there. */
export interface TableColumn {
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
export interface Nested {
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
