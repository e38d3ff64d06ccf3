import * as fc from 'fast-check';
import papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { Written } from '../../src/exchange/records-json.js';
import { tablesOf } from '../../src/exchange/tables-csv.js';
import { anyWritten } from './any-records.js';
import { practiceIn } from './practice-in.js';

interface Field {
  readonly name: string;
  readonly type: string;
  readonly description: string;
  readonly constraints?: {
    required?: true;
    pattern?: string;
    minimum?: number | string;
    maximum?: number | string;
    enum?: unknown[];
  };
}
interface ForeignKey {
  readonly fields: string[];
  readonly reference: { readonly resource: string; readonly fields: string[] };
}
interface Resource {
  readonly name: string;
  readonly path: string;
  readonly schema: {
    readonly fields: Field[];
    readonly primaryKey?: string[];
    readonly foreignKeys?: ForeignKey[];
  };
}

/** The tables as another program reads them: by its own parser, from the files and their dictionary alone. */
function readBack(written: Written, guarded = false) {
  const { files, formulas } = tablesOf(written, { guarded });
  const { resources } = JSON.parse(files.get('datapackage.json') ?? '') as { resources: Resource[] };
  const tables = new Map(
    resources.map((resource) => {
      const { data, errors } = papa.parse<string[]>(files.get(resource.path) ?? '', { delimiter: ',' });
      expect(errors).toEqual([]);
      // The last line ends with a line end, after which this parser sees one empty row.
      expect(data.at(-1)).toEqual(['']);
      const [head = [], ...rows] = data.slice(0, -1);
      expect(head).toEqual(resource.schema.fields.map(({ name }) => name));
      return [resource.name, { resource, rows }] as const;
    }),
  );
  return { files, formulas, resources, tables };
}

const forms: Readonly<Record<string, RegExp>> = {
  integer: /^-?\d+$/,
  number: /^-?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/,
  boolean: /^(?:true|false)$/,
  date: /^\d{4}-\d{2}-\d{2}$/,
  time: /^\d{2}:\d{2}$/,
  string: /^/,
};

function wrongWith({ type, constraints = {} }: Field, cell: string): string | undefined {
  if (cell === '') return constraints.required ? 'required and empty' : undefined;
  if (!forms[type]?.test(cell)) return `no ${type}`;
  if (type === 'date' && new Date(cell).toISOString().slice(0, 10) !== cell) return 'no such day';
  const value = type === 'integer' || type === 'number' ? Number(cell) : cell;
  if (constraints.minimum !== undefined && value < constraints.minimum) return 'below the least';
  if (constraints.maximum !== undefined && value > constraints.maximum) return 'above the most';
  if (constraints.pattern !== undefined && !new RegExp(constraints.pattern).test(cell))
    return 'not of the pattern';
  if (constraints.enum && !constraints.enum.includes(value)) return 'not of the words';
  return undefined;
}

/** Every plain value of the records, wherever it is. */
function leaves(value: unknown): string[] {
  if (typeof value === 'object' && value !== null) return Object.values(value).flatMap(leaves);
  const plain = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
  return plain && value !== '' ? [String(value)] : [];
}

function check(written: Written): ReturnType<typeof readBack>['tables'] {
  const { tables } = readBack(written);
  const cells: string[] = [];
  const wrongs: string[] = [];
  for (const { resource, rows } of tables.values()) {
    const { fields, primaryKey = [], foreignKeys = [] } = resource.schema;
    for (const row of rows)
      for (const [at, cell] of row.entries()) {
        const wrong = wrongWith(fields[at]!, cell);
        if (wrong !== undefined) wrongs.push(`${resource.name}.${fields[at]!.name}: ${cell}: ${wrong}`);
        if (cell !== '' && !primaryKey.includes(fields[at]!.name)) cells.push(cell);
      }
    const pick = (row: string[], of: readonly Field[], names: readonly string[]): string =>
      JSON.stringify(names.map((name) => row[of.findIndex((field) => field.name === name)]));
    if (primaryKey.length > 0)
      expect(new Set(rows.map((row) => pick(row, fields, primaryKey))).size).toBe(rows.length);
    for (const { fields: own, reference } of foreignKeys.filter(({ fields: names }) =>
      names.every((name) => primaryKey.includes(name)),
    )) {
      const target = tables.get(reference.resource)!;
      const there = new Set(
        target.rows.map((row) => pick(row, target.resource.schema.fields, reference.fields)),
      );
      expect(rows.filter((row) => !there.has(pick(row, fields, own)))).toEqual([]);
    }
  }
  expect(wrongs).toEqual([]);
  const own = leaves([
    written.business,
    written.narrative,
    written.farms.map(({ farm, narrative, cases }) => [
      farm,
      narrative,
      cases.map((each) => [each.animal, each.narrative]),
    ]),
  ]);
  expect(cells.sort()).toEqual(own.sort());
  return tables;
}

describe('the tables', () => {
  it.each([
    'cases',
    'tests/casefiles/good/every-key',
    'tests/casefiles/good/odd-but-legal',
    'tests/casefiles/good/ten-years',
  ])(
    'of %s hold every value of the records, each of the type its dictionary says',
    (folder) => void check(practiceIn(folder)),
  );

  it('of any business do, whatever its texts; and every column is filled by one or another', () => {
    const empty = new Set(
      readBack(practiceIn('cases')).resources.flatMap(({ name, schema }) =>
        schema.fields.map((field) => `${name}.${field.name}`),
      ),
    );
    fc.assert(
      fc.property(anyWritten, (written) => {
        for (const [name, { resource, rows }] of check(written))
          for (const row of rows)
            for (const [at, cell] of row.entries())
              if (cell !== '') empty.delete(`${name}.${resource.schema.fields[at]!.name}`);
      }),
      { numRuns: 40, seed: 20261125 },
    );
    expect([...empty]).toEqual([]);
  });

  it('of the demo point to lesions that are declared', () => {
    const { tables } = readBack(practiceIn('cases'));
    const lesions = tables.get('lesions')!;
    const names = new Set(lesions.rows.map((row) => JSON.stringify(row.slice(0, 3))));
    let pointing = 0;
    for (const { resource, rows } of tables.values())
      for (const { fields, reference } of resource.schema.foreignKeys ?? []) {
        if (reference.resource !== 'lesions' || resource.name.startsWith('lesions-')) continue;
        const at = fields.map((name) => resource.schema.fields.findIndex((field) => field.name === name));
        for (const row of rows.filter((one) => one[at.at(-1)!] !== '')) {
          pointing += 1;
          expect(names).toContain(JSON.stringify(at.map((place) => row[place])));
        }
      }
    expect(pointing).toBeGreaterThan(10);
  });

  it('are the same files and the same bytes each time, for an empty business too', () => {
    const empty = tablesOf({ business: {}, narrative: '', farms: [] }, { guarded: false });
    const full = tablesOf(practiceIn('cases'), { guarded: false });
    expect([...empty.files.keys()]).toEqual([...full.files.keys()]);
    expect(empty.files.get('animals.csv')?.split('\r\n')).toHaveLength(2);
    expect(tablesOf(practiceIn('cases'), { guarded: false })).toEqual(full);
  });

  it('say of every column what it holds', () => {
    for (const { schema } of readBack(practiceIn('cases')).resources) {
      expect(schema.fields.filter(({ description }) => description === '')).toEqual([]);
      expect(new Set(schema.fields.map(({ name }) => name)).size).toBe(schema.fields.length);
    }
  });
});

describe('text that a spreadsheet program would run', () => {
  const farm = (phone: string, narrative: string): Written => ({
    business: {},
    narrative: '',
    farms: [
      {
        slug: 'q',
        farm: { farm: 'Q', contact: { phone } },
        narrative,
        cases: [],
        source: { file: '', placeOf: () => ({ line: 1, column: 1 }) },
      },
    ],
  });

  it.each(['=1+1', '@sum(a1)', '+cmd', '- better', '\t=1', '-1+1|x'])(
    '%j is told of and, where asked, guarded',
    (text) => {
      const { formulas, tables } = readBack(farm('1', text));
      expect(formulas).toEqual([{ file: 'farms.csv', row: 2, column: 'narrative' }]);
      expect(tables.get('farms')!.rows[0]!.at(-1)).toBe(text);
      expect(readBack(farm('1', text), true).tables.get('farms')!.rows[0]!.at(-1)).toBe(`'${text}`);
    },
  );

  it.each(['+44 1632 960001', '-5', 'a=b', '+44 (0)1632-96'])('%j is left alone', (text) => {
    expect(readBack(farm(text, '')).formulas).toEqual([]);
  });
});
