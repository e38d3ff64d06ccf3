import { z } from 'zod';
import { type Wanted, wantedBy } from '../casefile/wanted.js';

/** One column of a table: the way to its value from the group a row is made of, and what stands there. */
export interface Column {
  readonly name: string;
  /** Keys from the row's group on; empty where the row is the value itself. */
  readonly way: readonly string[];
  /** The way to it in the record model, such as `animal.visits[].found{}.top`. */
  readonly place: string;
  readonly wanted: Wanted;
  readonly required: boolean;
}

/** What makes rows inside a row: a list, names of the user's own choice, or one group that has a table of its own. */
export interface Nested {
  readonly makes: 'list' | 'named' | 'one';
  readonly way: readonly string[];
  readonly table: Table;
}

/** The record model seen as a table: its columns, and the tables of what stands inside a row. */
export interface Table {
  readonly place: string;
  readonly columns: readonly Column[];
  readonly nested: readonly Nested[];
}

/**
 * Lays the record model out as tables, one value a cell: plain values and single groups are columns; lists, and
 * entries under names of the user's own, are tables of their own. Made from the schema itself, so that a key new in
 * the model has its column or its table without a word here.
 *
 * Shape: `apart` are places of single groups that are to be tables too, such as `animal.visits[].vet`
 */
export function tableOf(schema: z.core.$ZodType, place: string, apart: ReadonlySet<string>): Table {
  const columns: Column[] = [];
  const nested: Nested[] = [];
  const nest = (makes: Nested['makes'], way: readonly string[], of: z.core.$ZodType, at: string): void => {
    nested.push({ makes, way, table: tableOf(of, at, apart) });
  };
  const lay = (of: z.core.$ZodType, way: readonly string[], at: string, required: boolean): void => {
    const bare = tabular(of);
    if (bare instanceof z.ZodArray) nest('list', way, bare.element, `${at}[]`);
    else if (bare instanceof z.ZodRecord) nest('named', way, bare.valueType, `${at}{}`);
    else if (bare instanceof z.ZodObject && way.length > 0 && apart.has(at)) nest('one', way, bare, at);
    else if (bare instanceof z.ZodObject)
      for (const [key, inner] of Object.entries(bare.shape))
        lay(inner, [...way, key], `${at}.${key}`, required && !(inner instanceof z.ZodOptional));
    else columns.push({ name: way.join('-'), way, place: at, wanted: wantedBy(bare), required });
  };
  // A group that is a table of its own is laid out as the rows of it are.
  lay(schema, [], place, true);
  return { place, columns, nested };
}

/** Where a value may stand alone or as a list over time (a herd, a scale), it is the list: one row then holds always. */
function tabular(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodOptional) return tabular(schema.unwrap());
  if (!(schema instanceof z.ZodUnion)) return schema;
  return schema.options.find((option) => option instanceof z.ZodArray) ?? schema;
}
