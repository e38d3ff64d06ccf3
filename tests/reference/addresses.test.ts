import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { numbersSection, sourceLines } from '../../src/book/numbers-table.js';
import { publishedSource, publishedSources } from '../../src/reference/numbers.js';
import type { Address } from '../../src/reference/sourced.js';
import { wordsOf } from '../../src/reference/words.js';

interface Addressed {
  readonly path: string;
  readonly address: Address;
}

function addressed(value: unknown, path: string): Addressed[] {
  if (typeof value !== 'object' || value === null) return [];
  const own = 'address' in value ? [{ path, address: value.address as Address }] : [];
  return [
    ...own,
    ...Object.entries(value).flatMap(([key, inner]) =>
      key === 'address' ? [] : addressed(inner, `${path}.${key}`),
    ),
  ];
}

/** Columns of a table and texts of a letter may be called an address too. */
const all = readdirSync('shared')
  .filter((name) => name.endsWith('.json'))
  .flatMap((name) => addressed(JSON.parse(readFileSync(`shared/${name}`, 'utf8')), name.slice(0, -5)))
  .filter(({ address }) => typeof address === 'object' && 'how' in address);

/** Where there is nothing to find out: units, the calendar, what a rate is measured against, the ends in a scale's name. */
const definitions = [
  'footbath.numbers.weeksAYear', 'growth.month', 'growth.year', 'growth.week', 'growth.cow.mean', 'growth.claw.outer',
  'growth.foot.hind', 'growth.lactation.unknown', 'growth.season.unknown', 'growth.closing.mean', 'growth.closing.deviation',
  'growth.closing.target', 'growth.closing.targetSd', 'herd.figures.rateCowYears', 'herd.figures.yearDays',
  'scales.condition.uk-1-5', 'scales.condition.us-1-5', 'scales.condition.ie-1-5', 'scales.condition.au-1-8', 'scales.condition.nz-1-10',
]; // prettier-ignore

/** What is wrong with an address; nothing where a reader can follow it. */
function faults({ path, address: { how, source, note } }: Addressed): string[] {
  const isFound = how === 'read' || how === 'derived';
  return [
    ...source.filter((id) => !(id in publishedSources)).map((id) => `no source ${id}`),
    ...(isFound && source.length === 0 ? [`${how} in nothing`] : []),
    ...(how !== 'read' && !note ? [`${how} without a word why`] : []),
    ...(how === 'definition' && !definitions.includes(path) ? ['no definition'] : []),
  ];
}

describe('addresses in shared/', () => {
  test('there are many', () => {
    expect(all.length).toBeGreaterThan(150);
    expect(new Set(all.map(({ address }) => address.how)).size).toBe(4);
  });

  test('each number is read or derived from works a reader can find, or is called a judgement and says why', () => {
    expect(all.flatMap((one) => faults(one).map((fault) => `${one.path}: ${fault}`))).toEqual([]);
    expect(definitions.filter((path) => !all.some((one) => one.path === path))).toEqual([]);
  });

  test.each<[Address, string[]]>([
    [{ how: 'read', source: ['thomas-2016'] }, []],
    [{ how: 'read', source: [] }, ['read in nothing']],
    [{ how: 'derived', source: [], note: 'From the season.' }, ['derived in nothing']],
    [{ how: 'derived', source: ['thomas-2016'] }, ['derived without a word why']],
    [
      { how: 'judgement', source: ['rates-gathered'] },
      ['no source rates-gathered', 'judgement without a word why'],
    ],
    [{ how: 'definition', source: [], note: 'Taken so.' }, ['no definition']],
  ])('an address is judged: %j', (address, expected) => {
    expect(faults({ path: 'growth.lines.dorsal.rate', address })).toEqual(expected);
  });
});

describe('sources', () => {
  test('a reader is told who, when, and in which work or journal; what is not known so is no source', () => {
    for (const source of Object.values(publishedSources)) {
      expect(source.authors).not.toBe('');
      expect(source.year).toBeGreaterThan(1900);
      expect(source.title ?? source.journal).toBeTruthy();
    }
    const isSource = (given: object) => publishedSource.safeParse(given).success;
    expect(isSource({ authors: 'Orla Venn', year: 2015, journal: 'Animals' })).toBe(true);
    expect(isSource({ authors: 'Orla Venn', year: 2015 })).toBe(false);
    expect(isSource({ authors: 'Orla Venn', title: 'A thesis' })).toBe(false);
    expect(isSource({ year: 2015, title: 'Rates as gathered' })).toBe(false);
  });

  test('something depends on each: a number, or a sum whose comment names it', () => {
    const code = readdirSync('src', { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(`src/${name}`, 'utf8'))
      .join('');
    const used = new Set(all.flatMap(({ address }) => address.source));
    const idle = Object.keys(publishedSources).filter((id) => !used.has(id) && !code.includes(`\`${id}\``));
    expect(idle).toEqual([]);
  });

  test('the book prints each work in full, and calls a judgement one, beside what it leans on', () => {
    expect(sourceLines()).toHaveLength(Object.keys(publishedSources).length);
    expect(sourceLines()).toContain('Laven et al. 2015. Animals. doi 10.3390/ani5030379');
    const rows = numbersSection(wordsOf('en-GB')).table!.rows.map(({ cells }) =>
      cells.map(({ text }) => text),
    );
    const from = (name: string) => rows.find(([head]) => head === name)![2];
    expect(from('Growth, front line')).toMatch(/^judgement; adult dairy cows/);
    expect(from('Error of a reading from a photo')).toBe('judgement, after Laven et al. 2015');
    expect(from('Copper in the anhydrous form')).toMatch(
      /^worked out from published figures; .*; Prohaska et al\. 2022$/,
    );
    expect(from('Newly lame, trimmed, in a trial')).toMatch(/^read in the source; .*; Thomas et al\. 2015$/);
    expect(from('Days in a week')).toBe('by definition');
  });
});
