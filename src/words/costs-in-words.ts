import type { Costs, CostKind } from '../money/costs.js';
import { totalAsText } from '../money/total-as-text.js';
import { workKinds } from '../money/work-done.js';
import { notInSumItems, monthsOf, toFinishSentence } from './compose-money.js';
import type { Words } from './words.js';
import type { FarmCosts, AnimalCosts } from '../money/farm-costs.js';
import { sumAsText } from '../money/hundredths.js';
import type { Span, ToFinish } from '../money/to-finish.js';
import { largest } from '../statistics/extremes.js';

const kinds: readonly CostKind[] = [...workKinds, 'milk'];

/** A farm's costs as lines for the terminal: a table of its animals, one of its years, and what the sums leave out. */
export function costsInWords(words: Words, { name, currency, animals, years, total }: FarmCosts): string {
  const heads = ['visits', 'blocks', 'wraps', 'products', 'milk days', currency];
  const ofAnimals = animals.map(({ slug, costs, since, closed }) => [
    slug,
    since === undefined ? '' : `${since}${closed ? ', closed' : ''}`,
    ...numbers(costs),
  ]);
  const ofYears = years.map(({ year, costs }) => [year, '', ...numbers(costs)]);
  if (ofAnimals.length + ofYears.length === 0) return `${name}\n  no work and no milk withheld on record\n`;
  const ofAll = total ? [['all', '', ...numbers(total)]] : [];
  const rows = [
    ['animal', total ? '' : 'since', ...heads],
    ...ofAnimals,
    ...(ofYears.length > 0 ? [['year', '', ...heads], ...ofYears] : []),
    ...ofAll,
  ];
  return `${[
    name,
    ...laidOut(rows, 2).map((line) => `  ${line}`),
    ...animals.flatMap(({ slug, costs }) => leftOut(words, slug, costs)),
    ...toFinishInWords(words, animals, currency),
  ].join('\n')}\n`;
}

/** How many of each kind are in the sum, and the sum. */
function numbers(costs: Costs): string[] {
  return [
    ...kinds.map((what) => String(costs.lines.find((line) => line.what === what)?.count ?? '-')),
    totalAsText(costs),
  ];
}

function leftOut(words: Words, slug: string, costs: Costs): string[] {
  const items = notInSumItems(words, costs);
  return items === undefined ? [] : [`${slug}: ${words.say('money.not-in-sum', { items })}`];
}

type Range = Extract<ToFinish, { outcome: 'range' }>;

/** What completing each open case would take, as a table with its basis beneath, and of whom it is not given. */
function toFinishInWords(words: Words, animals: readonly AnimalCosts[], currency: string): string[] {
  const open = animals.flatMap(({ toFinish, ...one }) => (toFinish ? [{ ...one, toFinish }] : []));
  const given = open.flatMap(({ slug, toFinish }) =>
    toFinish.outcome === 'range' ? [{ slug, finish: toFinish }] : [],
  );
  const rows = given.map(({ slug, finish }) => [
    slug,
    finish.pace ? `${finish.pace.everyDays} days` : '-',
    spanOf(finish.visits),
    spanOf(finish.blocks),
    spanOf(monthsOf(finish.days)),
    finish.sum ? spanOf({ low: sumAsText(finish.sum.low), high: sumAsText(finish.sum.high) }) : '-',
  ]);
  const heads = ['to finish', 'a visit every', 'visits', 'blocks', 'months', currency];
  return [
    ...(rows.length > 0 ? laidOut([heads, ...rows], 1).map((line) => `  ${line}`) : []),
    ...(rows.length > 0 ? [words.say('money.finish.basis')] : []),
    ...given.flatMap(({ slug, finish }) => limits(words, slug, finish)),
    ...open.flatMap(({ slug, animal, toFinish }) =>
      toFinish.outcome === 'none' ? [`${slug}: ${toFinishSentence(words, animal, toFinish, currency)}`] : [],
    ),
  ];
}

function limits(words: Words, slug: string, { ifSoundHornFollows, without }: Range): string[] {
  return [
    ...(ifSoundHornFollows ? [`${slug}: ${words.say('money.finish.if-sound')}`] : []),
    ...(without.length > 0
      ? [`${slug}: ${words.say('money.finish.without', { lesions: without.join(', ') })}`]
      : []),
  ];
}

function spanOf(span: Span<number> | Span<string> | undefined): string {
  if (!span) return '-';
  return span.low === span.high ? `${span.low}` : `${span.low} to ${span.high}`;
}

/**
 * Rows under each other, two spaces between: the first columns to the left, the others to the right.
 */
function laidOut(rows: readonly (readonly string[])[], toTheLeft: number): string[] {
  const widths = (rows[0] ?? []).map((_, at) => largest(rows.map((row) => row[at]!.length)));
  return rows.map((row) =>
    row
      .map((cell, at) => (at < toTheLeft ? cell.padEnd(widths[at]!) : cell.padStart(widths[at]!)))
      .join('  ')
      .trimEnd(),
  );
}
