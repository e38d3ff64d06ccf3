import { sha256Of } from '../ledger/canonical.js';
import { dictionaryTables } from '../reference/dictionary.js';
import { type Field, fieldOf } from './field-of.js';
import { type Sheet, type SheetColumn, sheets } from './sheets.js';

/**
 * The dictionary of the tables: what each holds and says, column by column, in the words of Data Package 2.0, an open
 * specification (https://datapackage.org).
 *
 * Shape: the text of each table's file by the table's name → the text of `datapackage.json`
 */
export function dataPackage(
  files: ReadonlyMap<Sheet, string>,
  { guarded }: { readonly guarded: boolean },
): string {
  const resources = sheets.map((sheet) => resourceOf(sheet, files.get(sheet) ?? ''));
  return `${JSON.stringify(
    {
      $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
      name: 'growdown-tables',
      title: 'Records of lame cows, as tables',
      description: describedAs(guarded),
      resources,
    },
    null,
    2,
  )}\n`;
}

function describedAs(guarded: boolean): string {
  const text = guarded
    ? 'Text that a spreadsheet program would take for a formula has an apostrophe before it that is not in the records.'
    : 'Text stands as it was written, also where it begins with = + - or @: a spreadsheet program may take that for a formula, so open the tables with all columns as text.';
  return `One value a cell; an empty cell is not known. Lengths are millimetres, days YYYY-MM-DD. ${text}`;
}

function resourceOf(sheet: Sheet, text: string): Record<string, unknown> {
  const bytes = new TextEncoder().encode(text);
  return {
    name: sheet.name,
    type: 'table',
    title: sheet.title,
    description: sheet.says,
    path: `${sheet.name}.csv`,
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    bytes: bytes.length,
    hash: `sha256:${sha256Of(bytes)}`,
    schema: schemaOf(sheet),
  };
}

function schemaOf(sheet: Sheet): Record<string, unknown> {
  const all: readonly SheetColumn[] = [...sheet.keys, ...sheet.columns];
  const fields: Field[] = all.map(fieldOf);
  const keys = sheet.keys.map(({ name }) => name);
  const foreignKeys = [...toParent(sheet), ...sheet.columns.flatMap((column) => toNamed(sheet, column))];
  return {
    fields,
    missingValues: [''],
    ...(keys.length > 0 ? { primaryKey: keys } : {}),
    ...(foreignKeys.length > 0 ? { foreignKeys } : {}),
  };
}

interface ForeignKey {
  readonly fields: readonly string[];
  readonly reference: { readonly resource: string; readonly fields: readonly string[] };
}

/** Each row belongs to one of the table it stands in. */
function toParent({ parent }: Sheet): ForeignKey[] {
  const fields = parent?.keys.map(({ name }) => name) ?? [];
  return parent && fields.length > 0 ? [{ fields, reference: { resource: parent.name, fields } }] : [];
}

/** A column that names a lesion points to her row of it. */
function toNamed({ keys }: Sheet, { name, to }: SheetColumn): ForeignKey[] {
  const target = sheets.find((sheet) => sheet.name === to);
  if (!target || !dictionaryTables[target.name]) return [];
  const shared = target.keys.slice(0, -1).map((key) => key.name);
  if (!shared.every((key) => keys.some((own) => own.name === key))) return [];
  const [last] = target.keys.slice(-1);
  return last
    ? [{ fields: [...shared, name], reference: { resource: target.name, fields: [...shared, last.name] } }]
    : [];
}
