import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { numbersInUse } from '../../src/book/numbers-table.js';

/** The rooms whose sums lead to what a book says. */
const rooms = ['growth', 'healing', 'schedule', 'herd', 'money', 'statistics', 'record'];

/** Counting, halving, squaring. */
const mathematics = new Set(['0', '1', '2', '3', '0.5']);

/**
 * What else is in code, and why it is no finding about animals: units into one another, the calendar, the terms of
 * a formula, how exactly a sum is worked out. Each is looked for, so that none stays here unused.
 */
const allowed: Readonly<Record<string, readonly [why: string, ...numbers: string[]]>> = {
  'record/signs.ts': ['the number of a character, in hexadecimal digits', '16', '4'],
  'herd/farm-digest.ts': ['how much of a checksum marks a visit', '12'],
  'herd/footbath/bath-sums.ts': [
    'per cent; days of a week; square metres, centimetres, milligrams',
    '100',
    '7',
    '10_000',
    '1_000_000',
    '1000',
  ],
  'herd/time-to-event.ts': ['rounding', '1e-9'],
  'money/year-costs.ts': ['places in a written day', '4'],
  'herd/lesion-rates.ts': ['places in a written day; months of a year', '4', '5', '7', '12'],
  'record/calendar-day.ts': [
    'milliseconds of a day; places in a written day',
    '86_400_000',
    '4',
    '5',
    '7',
    '8',
    '10',
  ],
  'record/period.ts': ['places in a written day', '4', '7'],
  'record/doubts.ts': ['millimetres of a centimetre; places in a written day', '10', '4'],
  'record/measures.ts': ['the longest length the case format takes', '200'],
  'schedule/reading-to-take.ts': ['days of a week', '7'],
  'schedule/calving.ts': ['the last tenth of a pregnancy', '10'],
  'schedule/withheld.ts': ['hours of a day', '24'],
  'statistics/ellipse.ts': ['Ramanujan’s formula', '4', '10'],
  'statistics/first-reach.ts': ['where a search stops', '1e-9'],
  'statistics/kaplan-meier.ts': ['default; rounding', '0.95', '1e-12'],
  'statistics/median.ts': ['default', '0.95'],
  'statistics/approximate-mle.ts': ['where a search stops', '60', '1e-3'],
  'statistics/npmle-masses.ts': [
    'where a search stops',
    '500',
    '20',
    '8',
    '1e-9',
    '1e-4',
    '1e-6',
    '1e-24',
    '50',
    '1e-12',
    '1e-10',
  ],
  'statistics/permutation-test.ts': ['how many deals by default; rounding', '9999', '20_000', '1e-9'],
  'statistics/poisson-rate.ts': [
    'default; where a search starts and a sum stops',
    '0.95',
    '20',
    '40',
    '1e-17',
  ],
  'statistics/seeded-random.ts': [
    'the generator, held against its published code',
    '5',
    '7',
    '9',
    '11',
    '13',
    '16',
    '32',
    '4',
  ],
  'statistics/share-bounds.ts': [
    'default; rounding; where a search starts and stops',
    '0.95',
    '1e-9',
    '2e-4',
    '0.05',
  ],
  'statistics/wilson-share.ts': ['default; Wilson’s formula; rounding', '0.95', '4', '1e-6'],
};

/** Tables of coefficients, checked against other software digit by digit; both works are among the sources. */
const coefficients = ['statistics/normal.ts'];

/**
 * Numbers in code: not those in comments, in patterns, or in strings, nor the order of a question or the room on a form;
 * those worked into a string count.
 */
function bareNumbers(code: string): string[] {
  const plain = code
    .replace(/\/\*[\s\S]*?\*\//g, ' ')
    .replace(/(^|\s)\/\/.*$/gm, ' ')
    .replace(/(?<=[(,=:>]\s?)\/(?:\\.|\[[^\]\n]*\]|[^/\n\\[])+\/[a-z]*/g, "''")
    .replace(/'(?:\\.|[^'\\\n])*'/g, "''")
    .replace(/\b(?:ask|more|room): \d+/g, '')
    .replace(/`(?:\\.|[^`\\])*`/g, (text) => (text.match(/\$\{[^}]*\}/g) ?? []).join(' '));
  return (plain.match(/(?<![\w.$])(?:0x[\da-f_]+|\d[\d_]*(?:\.\d+)?(?:e[+-]?\d+)?)(?![\w])/gi) ?? []).filter(
    (number) => !mathematics.has(number) && !number.startsWith('0x'),
  );
}

test.each([
  ['const rate = 5.3; // 7', ['5.3']],
  ["at('9', 2) + 1e-9 - 10_000", ['1e-9', '10_000']],
  ["key(count, { ask: 12, unit: 'mm' }); const room = 14", ['14']],
  ['const text = `${days * 42} days`;', ['42']],
  ['/** 12 */ const held = /\\d{4}/.test(text) ? 0.11 ** 2 : x2;', ['0.11']],
])('the search for bare numbers finds them in %s', (code, found) => {
  expect(bareNumbers(code)).toEqual(found);
});

const files = rooms.flatMap((room) =>
  readdirSync(`src/${room}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${room}/${name}`),
);

test.each(files.filter((name) => !coefficients.includes(name)))(
  'every number in the code of %s has its address in shared/, or is told here why it needs none',
  (name) => {
    const [, ...numbers] = allowed[name] ?? [''];
    const found = new Set(bareNumbers(readFileSync(`src/${name}`, 'utf8')));
    expect([...found].sort()).toEqual(numbers.toSorted());
  },
);

test('what is allowed is of files that are there', () => {
  expect([...Object.keys(allowed), ...coefficients].filter((name) => !files.includes(name))).toEqual([]);
});

/**
 * Data in which numbers are places on a drawing or a form, sizes of type, pictures and mail, days a calendar looks ahead, years of works, results of the
 * study, or when a list is asked about: no book depends on them.
 */
const noSums = [
  'animal-list',
  'archive',
  'foot-map',
  'form',
  'handover',
  'mail',
  'months',
  'palette',
  'picture-steps',
  'round',
  'ledger',
  'sheet',
  'sources',
  'study',
  'text-widths',
];

/** A number as text, its keys in one order. */
function inOneOrder(value: object): string {
  return JSON.stringify(Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1)));
}

/** Which scores a scale has is its definition, and its name says it; where lame begins is a finding. */
const definesScale = /^scales\.json.*\.(?:lowest|highest|step)$/;

interface Found {
  readonly path: string;
  readonly sourced: boolean;
  readonly told: string | undefined;
}

/** A score from which a cow is lame, as the annex gives it. */
function markOfScale(scale: object, key: string): string | undefined {
  if (!/^(?:lame|severe)From$/.test(key) || !('word' in scale) || !('address' in scale)) return undefined;
  const value = (scale as Record<string, unknown>)[key];
  return inOneOrder({ value, unit: `${String(scale.word)} score`, address: scale.address });
}

/** Every number in a piece of data: whether an address covers it, and the sourced number it is part of. */
function numbersOf(value: unknown, path: string, sourced = false, told?: string): Found[] {
  if (typeof value === 'number') return [{ path, sourced, told }];
  if (typeof value !== 'object' || value === null) return [];
  const here = sourced || 'address' in value;
  const whole = 'value' in value && 'address' in value ? inOneOrder(value) : told;
  return Object.entries(value).flatMap(([key, inside]) =>
    numbersOf(inside, `${path}.${key}`, here, markOfScale(value, key) ?? whole),
  );
}

describe('shared/', () => {
  const data = readdirSync('shared').filter(
    (name) => name.endsWith('.json') && !noSums.includes(name.slice(0, -'.json'.length)),
  );
  const printed: ReadonlySet<string> = new Set(numbersInUse().map(({ number }) => inOneOrder(number)));

  test('there is much to look at', () => {
    expect(printed.size).toBeGreaterThan(80);
    expect(data.length).toBeGreaterThan(8);
    expect(numbersOf({ a: { value: 5, address: {} }, b: [7] }, 'x').map(({ sourced }) => sourced)).toEqual([
      true,
      false,
    ]);
  });

  test.each(data)('every number of %s has an address, and stands in the annex', (name) => {
    const found = numbersOf(JSON.parse(readFileSync(`shared/${name}`, 'utf8')), name);
    expect(found.filter(({ sourced }) => !sourced).map(({ path }) => path)).toEqual([]);
    expect(
      found
        .filter(({ path }) => !definesScale.test(path))
        .filter(({ told }) => told === undefined || !printed.has(told))
        .map(({ path }) => path),
    ).toEqual([]);
  });
});
