import type { Costs, NotInSum, CostKind } from '../money/costs.js';
import { sumAsText } from '../money/hundredths.js';
import type { CostRange, ToFinish } from '../money/to-finish.js';
import type { Animal } from '../record/animal.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { nameOf } from './compose-standing.js';
import { paragraph } from './day-and-place.js';
import type { Words } from '../reference/words.js';
import { totalAsText, type FarmCosts, type AnimalCosts } from '../money/year-costs.js';
import { workKinds } from '../money/work-done.js';
import { largest } from '../statistics/estimate.js';

/** What is on record and not in a sum, each with its reason, as one list; undefined where all is in it. */
export function notInSumItems(words: Words, { notInSum }: Costs): string | undefined {
  if (notInSum.length === 0) return undefined;
  return words.semicolons(notInSum.map((one) => notItem(words, one)));
}

function notItem(words: Words, { what, count, why }: NotInSum): string {
  const counted = why === 'not-recorded' ? 'product' : what;
  return words.say(`money.not.${why}`, { what: words.say(`money.count.${counted}`, { count }) });
}

/**
 * What completing a case would take, with its pace, its range and what it leaves out; or why it is not given.
 *
 * Checked: tests/words/money-sentences.test.ts
 */
export function toFinishSentence(words: Words, animal: Animal, finish: ToFinish, currency: string): string {
  const named = (lesions: readonly string[]) =>
    words.semicolons(lesions.map((name) => nameOf(words, animal, name)));
  if (finish.outcome === 'none') {
    const nothing = finish.why === 'nothing-dated' && finish.lesions.length === 0;
    return words.say(`money.finish.none.${nothing ? 'nothing-open' : finish.why}`, {
      lesions: named(finish.lesions),
    });
  }
  const { days, pace, visits, blocks, sum, ifSoundHornFollows, without } = finish;
  const months = words.say('money.months', { value: spanText(words, monthsOf(days)) });
  const taken =
    pace && visits && blocks
      ? words.say('money.finish.pace', {
          every: words.say('money.days', { count: pace.everyDays }),
          from: words.say(`money.finish.from.${pace.from}`),
          fitted: words.say('money.count.block', { count: pace.blocks }),
          visits: words.say('money.count.visit', { count: pace.visits }),
          more: words.say('money.finish.more', { count: visits.high, value: spanText(words, visits) }),
          blocks: words.say('money.finish.blocks', { count: blocks.high, value: spanText(words, blocks) }),
          months,
        })
      : words.say('money.finish.no-pace', { months });
  return paragraph(
    taken,
    sum &&
      words.say('money.finish.sum', {
        sum: spanText(words, {
          low: words.number(sumAsText(sum.low)),
          high: words.number(sumAsText(sum.high)),
        }),
        currency,
      }),
    ifSoundHornFollows ? words.say('money.finish.if-sound') : undefined,
    without.length > 0 ? words.say('money.finish.without', { lesions: named(without) }) : undefined,
  );
}

/** Days as months with a tenth, the early end rounded down and the late one up. @example monthsOf({ low: 69, high: 145 }) // → { low: 2.2, high: 4.8 } */
export function monthsOf({ low, high }: CostRange<number>): CostRange<number> {
  const tenths = (days: number) => (10 * days) / growthNumbers.month.value;
  return { low: Math.floor(tenths(low)) / 10, high: Math.ceil(tenths(high)) / 10 };
}

function spanText(words: Words, { low, high }: CostRange<number> | CostRange<string>): string {
  return low === high ? words.number(low) : words.say('money.range', { low, high });
}

const kinds: readonly CostKind[] = [...workKinds, 'milk'];

/** A farm's costs as lines for the terminal: a table of its animals, one of its years, and what the sums leave out. */
export function costsInWords(words: Words, { name, currency, animals, years, total }: FarmCosts): string {
  if (animals.length + years.length === 0) return `${name}\n  no work and no milk withheld on record\n`;
  const heads = ['visits', 'blocks', 'wraps', 'products', 'milk days', currency];
  const rows = [
    ['animal', total ? '' : 'since', ...heads],
    ...animals.map(({ slug, costs, since, closed }) => [
      slug,
      since === undefined ? '' : `${since}${closed ? ', closed' : ''}`,
      ...numbers(costs),
    ]),
    ...(years.length > 0 ? [['year', '', ...heads]] : []),
    ...years.map(({ year, costs }) => [year, '', ...numbers(costs)]),
    ...(total ? [['all', '', ...numbers(total)]] : []),
  ];
  const leftOut = animals.flatMap(({ slug, costs }) => {
    const items = notInSumItems(words, costs);
    return items === undefined ? [] : [`${slug}: ${words.say('money.not-in-sum', { items })}`];
  });
  const lines = [name, ...laidOut(rows, 2), ...leftOut, ...toFinishInWords(words, animals, currency)];
  return `${lines.join('\n')}\n`;
}

/** How many of each kind are in the sum, and the sum. */
function numbers(costs: Costs): string[] {
  return [
    ...kinds.map((what) => String(costs.lines.find((line) => line.what === what)?.count ?? '-')),
    totalAsText(costs),
  ];
}

/** What completing each open case would take, as a table with its basis beneath, and of whom it is not given. */
function toFinishInWords(words: Words, animals: readonly AnimalCosts[], currency: string): string[] {
  const dated = animals.flatMap(({ slug, toFinish }) =>
    toFinish?.outcome === 'range' ? [{ slug, ...toFinish }] : [],
  );
  const rows = dated.map(({ slug, pace, visits, blocks, days, sum }) => [
    slug,
    pace ? `${pace.everyDays} days` : '-',
    spanOf(visits),
    spanOf(blocks),
    spanOf(monthsOf(days)),
    spanOf(sum && { low: sumAsText(sum.low), high: sumAsText(sum.high) }),
  ]);
  const heads = ['to finish', 'a visit every', 'visits', 'blocks', 'months', currency];
  return [
    ...(rows.length > 0 ? [...laidOut([heads, ...rows], 1), words.say('money.finish.basis')] : []),
    ...dated.flatMap(({ slug, ifSoundHornFollows, without }) => [
      ...(ifSoundHornFollows ? [`${slug}: ${words.say('money.finish.if-sound')}`] : []),
      ...(without.length > 0
        ? [`${slug}: ${words.say('money.finish.without', { lesions: words.commas(without) })}`]
        : []),
    ]),
    ...animals.flatMap(({ slug, animal, toFinish }) =>
      toFinish?.outcome === 'none' ? [`${slug}: ${toFinishSentence(words, animal, toFinish, currency)}`] : [],
    ),
  ];
}

function spanOf(span: CostRange<number> | CostRange<string> | undefined): string {
  if (!span) return '-';
  return span.low === span.high ? `${span.low}` : `${span.low} to ${span.high}`;
}

/** Rows under each other, set in by two spaces and two between: the first columns to the left, the others to the right. */
function laidOut(rows: readonly (readonly string[])[], toTheLeft: number): string[] {
  const widths = (rows[0] ?? []).map((_, at) => largest(rows.map((row) => row[at]!.length)));
  return rows.map((row) => {
    const cells = row.map((cell, at) =>
      at < toTheLeft ? cell.padEnd(widths[at]!) : cell.padStart(widths[at]!),
    );
    return `  ${cells.join('  ').trimEnd()}`;
  });
}
