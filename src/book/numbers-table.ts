import { type SourcedNumber } from '../reference/sourced.js';
import {
  footbathNumbers,
  healingNumbers,
  herdNumbers,
  publishedSources,
  shortSource,
} from '../reference/numbers.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { defaultIntervals, fixedIntervals } from '../reference/intervals.js';
import { noticeRules } from '../reference/notices.js';
import { lameMarks } from '../reference/scales.js';
import type { Words } from '../reference/words.js';
import { dataTable, heads, type TableSection } from './page-parts.js';
import { given } from '../record/given.js';

/** A number of `shared/` with the words key of its name. */
export interface NamedNumber {
  readonly key: string;
  readonly number: SourcedNumber;
}

/** Every number the sums use, wherever it is in `shared/`. */
export function numbersInUse(): NamedNumber[] {
  return [
    ...numbersIn('numbers.growth', growthNumbers),
    ...numbersIn('numbers.healing', healingNumbers),
    ...numbersIn('herd.number', herdNumbers),
    ...numbersIn('herd.number.bath', footbathNumbers),
    ...numbersIn('vocabulary.interval', defaultIntervals),
    ...numbersIn('numbers.fixed', fixedIntervals),
    ...numbersIn('numbers.scale', lameMarks),
    ...noticeRules.flatMap((rule) => numbersIn(`numbers.notice.${rule.id}`, rule.limits ?? {})),
  ];
}

function numbersIn(key: string, branch: unknown): NamedNumber[] {
  if (typeof branch !== 'object' || branch === null) return [];
  if (isNumber(branch)) return [{ key, number: branch }];
  return Object.entries(branch).flatMap(([name, inside]) => numbersIn(`${key}.${name}`, inside));
}

function isNumber(branch: object): branch is SourcedNumber {
  return 'value' in branch && typeof branch.value === 'number' && 'unit' in branch && 'address' in branch;
}

/** The numbers behind the dates with value, unit, how sure, and where from. */
export function numbersSection(words: Words): TableSection {
  return {
    id: 'numbers',
    heading: words.say('numbers.heading'),
    lead: [words.say('numbers.lead')],
    table: dataTable(
      'numbers-table',
      words.say('numbers.caption'),
      heads(words, 'numbers', 'name', 'value', 'from'),
      numbersInUse().map(({ key, number }) => [
        words.has(key) ? words.say(key) : key,
        words.say('numbers.value-unit', { value: number.value, unit: number.unit }),
        { text: whereFrom(words, number), ...given({ note: number.address.note }) },
      ]),
    ),
  };
}

function whereFrom(words: Words, { address, population }: SourcedNumber): string {
  const how = words.say(`numbers.how.${address.how}`);
  const sources = words.semicolons(address.source.map(shortSource));
  const leans = address.how === 'judgement' && sources !== '';
  const said = leans ? words.say('numbers.leaning', { how, sources }) : how;
  return words.semicolons([said, population, leans ? '' : sources]);
}

/** Every published work, law and open standard the numbers are based on, one line each, in alphabetical order. */
export function sourceLines(): string[] {
  return Object.values(publishedSources)
    .map(({ authors, year, title, journal, doi, note }) =>
      [`${authors} ${year}`, title, journal, doi && `doi ${doi}`, note?.replace(/\.$/, '')]
        .filter((part) => part !== undefined)
        .join('. '),
    )
    .sort((a, b) => (a < b ? -1 : 1));
}
