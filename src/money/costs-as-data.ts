import type { Costs } from './costs.js';
import { sumAsText } from './hundredths.js';
import { totalOf, type FarmCosts } from './year-costs.js';
import type { ToFinish } from './to-finish.js';

/** A farm's costs for a program: sums as decimal text, since a number would round them. */
export function costsAsData({ farm, name, currency, animals, years, total }: FarmCosts) {
  return {
    farm,
    name,
    currency,
    animals: animals.map(({ slug, animal, costs, since, closed, toFinish }) => ({
      animal: slug,
      number: animal.animal,
      ...(since === undefined ? {} : { since, closed }),
      ...ofCosts(costs),
      ...(toFinish ? { toFinish: ofFinish(toFinish) } : {}),
    })),
    ...(total ? { total: ofCosts(total) } : {}),
    years: years.map(({ year, costs }) => ({ year, ...ofCosts(costs) })),
  };
}

function ofCosts(costs: Costs) {
  const { lines, notInSum } = costs;
  return {
    lines: lines.map((line) => ({ ...line, sum: sumAsText(line.sum) })),
    total: totalOf(costs) ?? null,
    notInSum,
  };
}

function ofFinish(finish: ToFinish) {
  if (finish.outcome === 'none' || !finish.sum) return finish;
  const { low, high } = finish.sum;
  return { ...finish, sum: { low: sumAsText(low), high: sumAsText(high) } };
}
