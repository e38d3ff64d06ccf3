import { stringify } from 'csv-stringify/sync';
import type { Written } from './records-json.js';
import { type TableCell, rowsOf, type Sheet, sheets, type SheetColumn } from './sheets.js';
import { sha256Of } from '../ledger/canonical.js';
import { dictionaryTables } from '../reference/dictionary.js';
import { z } from 'zod';
import { wantedBy } from '../casefile/wanted.js';
import { calendarDay, firstCalendarDay, lastCalendarDay } from '../record/calendar-day.js';
import { lesionCodes } from '../record/words.js';
import { lesionKinds } from '../reference/lesions.js';
import { given } from '../record/given.js';
import { terminal } from '../problem/message.js';
import { jsonText, signsShown } from '../record/signs.js';

/** A column in the words of Table Schema 2.0 (Data Package). `unit` is our own addition, by the Unified Code for Units of Measure. */
interface Field {
  readonly name: string;
  readonly type: 'string' | 'integer' | 'number' | 'boolean' | 'date' | 'time';
  readonly format?: string;
  readonly description: string;
  readonly unit?: string;
  readonly constraints?: Readonly<Record<string, unknown>>;
  readonly categories?: readonly { readonly value: string; readonly label: string }[];
}

/** Days the case format knows, and a day or the word `unknown` in its place. */
const days = { minimum: firstCalendarDay, maximum: lastCalendarDay };
const dayOrUnknown = '^(?:(?:19|20|21)\\d{2}-\\d{2}-\\d{2}|unknown)$';

/** What may appear in a column, read off the schema of the key it holds. */
function fieldOf({ name, says, unit, schema, required }: SheetColumn): Field {
  const { constraints: own, ...typed } = typeOf(schema);
  const constraints = { ...(required ? { required } : {}), ...own };
  return {
    name,
    ...typed,
    description: says,
    ...given({ unit }),
    ...(Object.keys(constraints).length > 0 ? { constraints } : {}),
  };
}

function typeOf(schema: z.core.$ZodType): Pick<Field, 'type' | 'format' | 'constraints' | 'categories'> {
  if (schema === calendarDay) return { type: 'date', constraints: days };
  const { kind } = wantedBy(schema);
  const { minimum, maximum, pattern, enum: words, const: only, type } = z.toJSONSchema(schema);
  switch (kind) {
    case 'day-or-unknown':
      return { type: 'string', constraints: { pattern: dayOrUnknown } };
    case 'time':
      return { type: 'time', format: '%H:%M' };
    case 'yes-no':
      return { type: 'boolean' };
    case 'version':
      return { type: 'integer', constraints: { enum: [only] } };
    case 'number':
      return {
        type: type === 'integer' ? 'integer' : 'number',
        constraints: {
          ...given({ minimum }),
          ...(maximum === undefined || maximum === Number.MAX_SAFE_INTEGER ? {} : { maximum }),
        },
      };
    case 'word':
      return { type: 'string', constraints: { enum: words ?? [only] }, ...labels(words) };
    default:
      return { type: 'string', ...(pattern === undefined ? {} : { constraints: { pattern } }) };
  }
}

/** The full name of a lesion is beside its code, since codes differ between translations. */
function labels(words: unknown): Pick<Field, 'categories'> {
  if (!Array.isArray(words) || words.join() !== lesionCodes.join()) return {};
  return { categories: lesionCodes.map((value) => ({ value, label: lesionKinds[value].name })) };
}

/**
 * The dictionary of the tables: what each holds and says, column by column, in the words of Data Package 2.0, an open
 * specification (https://datapackage.org).
 *
 * Shape: the text of each table's file by the table's name → the text of `datapackage.json`
 */
function dataPackage(files: ReadonlyMap<Sheet, string>, { guarded }: { readonly guarded: boolean }): string {
  const resources = sheets.map((sheet) => resourceOf(sheet, files.get(sheet) ?? ''));
  return jsonText({
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: 'growdown-tables',
    title: terminal('exchange.tables.title'),
    description: terminal(`exchange.tables.${guarded ? 'guarded' : 'as-written'}`),
    resources,
  });
}

function resourceOf(sheet: Sheet, text: string): Record<string, unknown> {
  const bytes = new TextEncoder().encode(text);
  const { name, title, says, keys, columns, parent } = sheet;
  const fields: Field[] = [...keys, ...columns].map(fieldOf);
  const foreignKeys = columns.flatMap((column) => toNamed(sheet, column));
  // Each row belongs to one of the table it is in.
  const above = namesOf(parent?.keys ?? []);
  if (parent && above.length > 0)
    foreignKeys.unshift({ fields: above, reference: { resource: parent.name, fields: above } });
  return {
    name,
    type: 'table',
    title,
    description: says,
    path: fileOf(sheet),
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    bytes: bytes.length,
    hash: `sha256:${sha256Of(bytes)}`,
    schema: {
      fields,
      missingValues: [''],
      ...(keys.length > 0 ? { primaryKey: namesOf(keys) } : {}),
      ...(foreignKeys.length > 0 ? { foreignKeys } : {}),
    },
  };
}

interface ForeignKey {
  readonly fields: readonly string[];
  readonly reference: { readonly resource: string; readonly fields: readonly string[] };
}

function namesOf(columns: readonly SheetColumn[]): string[] {
  return columns.map(({ name }) => name);
}

/** A column that names a lesion points to her row of it. */
function toNamed({ keys }: Sheet, { name, to }: SheetColumn): ForeignKey[] {
  const target = sheets.find((sheet) => sheet.name === to);
  if (!target || !dictionaryTables[target.name]) return [];
  const theirs = namesOf(target.keys);
  const shared = theirs.slice(0, -1);
  if (theirs.length === 0 || !shared.every((key) => namesOf(keys).includes(key))) return [];
  return [{ fields: [...shared, name], reference: { resource: target.name, fields: theirs } }];
}

/** Text in the tables that a spreadsheet program would take for a formula. */
export interface LooksLikeFormula {
  readonly file: string;
  /** Counted from the line of names as 1, as a spreadsheet counts. */
  readonly row: number;
  readonly column: string;
}

/**
 * What a spreadsheet program reads as a formula. A number with a sign, as phone numbers have, works nothing out.
 */
const formula = /^[\t\r ]*(?:[=@]|[+-](?![\d\s().-]*$))/;

/**
 * The records as tidy tables (RFC 4180: commas, CRLF, UTF-8 without a mark), with the dictionary of all columns.
 *
 * Text is written as it is in the records, to the character, since tables are read by programs too, but for signs no
 * record may hold, which are shown by their number; what a
 * spreadsheet program would run is reported. With `guarded` an apostrophe is put before it.
 *
 * Shape:   `files`: file name → its text; always the same files, whatever the records hold
 * Checked: tests/exchange/tables.test.ts
 */
export function tablesOf(
  written: Written,
  { guarded }: { readonly guarded: boolean },
): { readonly files: ReadonlyMap<string, string>; readonly formulas: readonly LooksLikeFormula[] } {
  const rows = rowsOf(written);
  const formulas: LooksLikeFormula[] = [];
  const texts = new Map<Sheet, string>();
  for (const sheet of sheets) {
    const names = namesOf([...sheet.keys, ...sheet.columns]);
    const cells = (rows.get(sheet) ?? []).map((row, index) =>
      row.map((cell, at) => {
        if (typeof cell !== 'string' || !formula.test(cell)) return cell;
        formulas.push({ file: fileOf(sheet), row: index + 2, column: names[at]! });
        return guarded ? `'${cell}` : cell;
      }),
    );
    texts.set(sheet, csv([names, ...cells]));
  }
  const files = new Map([...texts].map(([sheet, text]) => [fileOf(sheet), text]));
  return { files: files.set('datapackage.json', dataPackage(texts, { guarded })), formulas };
}

function fileOf({ name }: Sheet): string {
  return `${name}.csv`;
}

/** Quotes go round text, too, that some readers would trim or take for a line end. */
function csv(rows: readonly (readonly TableCell[])[]): string {
  return stringify(
    rows.map((row) => [...row]),
    {
      record_delimiter: 'windows',
      cast: { boolean: String, number: String, string: signsShown },
      quoted_match: /^[\s\ufeff]|\s$|[\r\n]/,
    },
  );
}
