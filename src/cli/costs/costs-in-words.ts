import type { Costs, CostKind } from '../../money/costs.js';
import { totalAsText } from '../../money/total-as-text.js';
import { workKinds } from '../../money/work-done.js';
import { notInSumItems } from '../../words/compose-money.js';
import type { Words } from '../../words/words.js';
import type { FarmCosts } from './farm-costs.js';
import { laidOut } from './laid-out.js';
import { toFinishInWords } from './to-finish-in-words.js';

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
