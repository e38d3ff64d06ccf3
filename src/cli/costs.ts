import { archiveOn } from '../growth/archive-on.js';
import { caseCosts } from '../money/case-costs.js';
import { costsWithin, farmWork } from '../money/farm-work.js';
import { yearCosts } from '../money/year-costs.js';
import { isInPeriod, type Period } from '../record/period.js';
import type { FarmRecord } from '../record/practice.js';
import { workOutFarm } from '../schedule/work-out-farm.js';
import { wordsOf } from '../words/words.js';
import { type CommonOptions } from './common-options.js';
import { costsAsData } from './costs/costs-as-data.js';
import { costsInWords } from './costs/costs-in-words.js';
import type { AnimalCosts, FarmCosts } from './costs/farm-costs.js';
import { writeWork } from './costs/write-work.js';
import type { Effects } from './effects.js';
import { exitCode, type ExitCode } from './exit-code.js';
import { exitFor, listErrors, type Reading, readCases } from './read-cases.js';

export type CostsOptions = CommonOptions & { out: string; period?: Period; csv?: true };

const noPrices =
  'business.md gives no prices, so there are no sums. Written there, as in `prices: { currency: GBP, visit: 45, block: 14.50, wrap: 4, milk-litre: 0.38 }`, each may be left out. `growdown costs --csv` lists the work itself without them.';

/**
 * Prints what cases have cost and what completing them would take, a table a farm; or, with `--csv`, writes the work done
 * as one file a farm, for a bill.
 */
export function costs(options: CostsOptions, effects: Effects): ExitCode {
  const reading = readCases(options, effects);
  const { practice, farms, problems, farmsRefused } = reading;
  listErrors(reading, effects);
  for (const slug of farmsRefused) effects.warn(`${slug}: nothing of it, because of the errors above\n`);
  if (farms.length === 0 && exitFor(problems) !== exitCode.well) return exitFor(problems);
  if (options.csv) {
    const files = farms.map((farm) => writeWork(practice.business, farm, reading.today, options, effects));
    if (options.json === true) effects.print(`${JSON.stringify({ work: files }, null, 2)}\n`);
    return exitFor(problems);
  }
  const told = farms.flatMap((farm) => farmCosts(reading, farm, options.period) ?? []);
  if (options.json === true) effects.print(`${JSON.stringify({ costs: told.map(costsAsData) }, null, 2)}\n`);
  else if (practice.business.prices === undefined) effects.print(`${noPrices}\n`);
  else effects.print(told.map((one) => costsInWords(wordsOf('en-GB'), one)).join('\n'));
  return exitFor(problems);
}

function farmCosts(
  { practice, today }: Reading,
  farm: FarmRecord,
  period: Period | undefined,
): FarmCosts | undefined {
  const { business } = practice;
  const { prices } = business;
  if (!prices) return undefined;
  const named = { farm: farm.slug, name: farm.farm.farm, currency: prices.currency };
  if (period) {
    const work = farmWork(farm, today);
    const isMeant = (day: string) => isInPeriod(day, period);
    const within = (some: typeof work) => costsWithin({ business, farm: farm.farm }, some, isMeant)!;
    const animals = work
      .map((hers): AnimalCosts => ({
        slug: hers.record.slug,
        animal: hers.record.animal,
        costs: within([hers]),
      }))
      .filter(({ costs: { lines, notInSum } }) => lines.length + notInSum.length > 0);
    return { ...named, animals, years: [], total: within(work) };
  }
  const { priors } = archiveOn(practice, today);
  const animals = workOutFarm(farm, { business, today, priors }).flatMap((work): AnimalCosts[] => {
    const hers = caseCosts(business, farm, work, today);
    const { record, standing } = work;
    const [first] = standing.episode.visits;
    const since =
      standing.episode.lameSince ?? (first === undefined ? '' : record.animal.visits[first]!.date);
    return hers
      ? [{ slug: record.slug, animal: record.animal, ...hers, since, closed: standing.closed !== undefined }]
      : [];
  });
  return { ...named, animals, years: yearCosts(business, farm, today) };
}
