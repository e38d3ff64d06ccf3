import type { Written } from './records-json.js';
import { rootSheets, type Sheet } from './sheets.js';

/** What stands in a cell; undefined where it is not known. */
export type TableCell = string | number | boolean | undefined;
export type Row = readonly TableCell[];

/** All rows of all tables that hold any, in the order of the records. */
export function rowsOf({ business, narrative, farms }: Written): ReadonlyMap<Sheet, readonly Row[]> {
  const rows = new Map<Sheet, Row[]>();
  const add = (sheet: Sheet, keys: Row, value: unknown): void => {
    const held = rows.get(sheet) ?? [];
    rows.set(sheet, held);
    held.push([...keys, ...sheet.columns.map(({ way }) => asCell(at(value, way)))]);
    for (const nested of sheet.nested)
      for (const [key, inner] of entriesOf(nested, at(value, nested.way)))
        add(nested, key === undefined ? keys : [...keys, key], inner);
  };
  if (Object.keys(business).length > 0 || narrative !== '')
    add(rootSheets.business, [], { ...business, narrative });
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

function at(value: unknown, way: readonly string[]): unknown {
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
