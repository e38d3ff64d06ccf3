import { dayNumber } from '../../src/record/calendar-day.js';
import type { LesionGrowth } from '../../src/growth/animal-growth.js';
import { growthOfAnimal, publishedPrior } from '../../src/growth/growth-of-animal.js';
import {
  added,
  priorFrom,
  publishedMean,
  sheSays,
  whatSheTeaches,
} from '../../src/growth/learning/priors-for.js';
import type { Prior } from '../../src/growth/what-is-known.js';
import { looksAt } from '../../src/healing/looks-at-lesion.js';
import { wallStanding } from '../../src/healing/wall-standing.js';
import type { StudyCoverage, StudyCries } from '../../src/reference/study-results.js';
import { type MadeCow, type Plan, housed, madeCow } from './made-cow.js';
import type { SeededDraws } from './seeded-draws.js';

interface Tally {
  cows: number;
  ranges: number;
  covered: number;
  tooEarly: number;
  tooLate: number;
  doubtful: number;
  held: number;
  noChange: number;
}

/** Draws so many sound cows, forecasts after each reading, and holds the range against the day it truly grew out. */
export function coverageOf(
  draws: SeededDraws,
  plan: Plan,
  cows: number,
): { readonly byReadings: readonly StudyCoverage[]; readonly cries: StudyCries } {
  const tallies = Array.from({ length: plan.readings }, (): Tally => ({
    cows: 0, ranges: 0, covered: 0, tooEarly: 0, tooLate: 0, doubtful: 0, held: 0, noChange: 0,
  })); // prettier-ignore
  const cries = { readings: 0, ranUpOrHeld: 0, heldOverWeeks: 0, doubtful: 0 };
  const prior = learnedFrom(draws, plan);
  for (let made = 0; made < cows; made++) {
    const cow = madeCow(draws, plan);
    for (const [at, today] of cow.read.entries()) {
      const gap = gapOn(cow, today, prior);
      tally(tallies[at]!, gap, cow.outOn);
      if (wallStanding(looksAt(cow.animal, 'a', today), gap).standing === 'no-change-shown')
        tallies[at]!.noChange++;
      if (at > 0) cry(cries, gap);
    }
  }
  const byReadings = tallies.map((t) => ({
    cows: t.cows,
    ranges: t.ranges,
    covered: share(t.covered, t.ranges),
    tooEarly: share(t.tooEarly, t.ranges),
    tooLate: share(t.tooLate, t.ranges),
    doubtful: share(t.doubtful, t.cows),
    held: share(t.held, t.cows),
    noChange: share(t.noChange, t.cows),
  }));
  const { readings } = cries;
  return {
    byReadings,
    cries: {
      readings,
      ranUpOrHeld: share(cries.ranUpOrHeld, readings),
      heldOverWeeks: share(cries.heldOverWeeks, readings),
      doubtful: share(cries.doubtful, readings),
    },
  };
}

/** Her gap as it was known on a day. */
export function gapOn({ animal }: MadeCow, today: string, prior: Prior = publishedPrior): LesionGrowth {
  return growthOfAnimal(animal, housed, { today, prior }).lesions[0]!;
}

/** What the cows on file have taught, each with all her readings. */
function learnedFrom(draws: SeededDraws, plan: Plan): Prior {
  let mean = publishedMean;
  for (let made = 0; made < (plan.onFile ?? 0); made++) {
    const { animal } = madeCow(draws, plan);
    const { factor } = growthOfAnimal(animal, housed, { today: '2030-01-01', prior: publishedPrior });
    const lesson = whatSheTeaches(factor);
    if (lesson !== undefined) mean = added(mean, sheSays(lesson));
  }
  return priorFrom(mean);
}

/** By eye alone no date is reported: there the sums are checked against the day. */
function tally(t: Tally, { forecast, heldNow }: LesionGrowth, outOn: number): void {
  t.cows++;
  const why = forecast.outcome === 'none' ? forecast.why : undefined;
  if (why === 'held' && heldNow?.sure) t.held++;
  else if (why === 'held' || why === 'doubtful') t.doubtful++;
  const sums = forecast.outcome === 'none' ? forecast.sums : forecast;
  if (!sums) return;
  const after = outOn - dayNumber(sums.from);
  const { early, late } = sums.days;
  t.ranges++;
  if (early === null || after < early) t.tooLate++;
  else if (late !== null && after > late) t.tooEarly++;
  else t.covered++;
}

function cry(cries: { -readonly [K in keyof StudyCries]: number }, gap: LesionGrowth): void {
  cries.readings++;
  const kind = gap.readings.at(-1)?.kind;
  if (kind === 'ran-up' || kind === 'held') cries.ranUpOrHeld++;
  else if (gap.heldNow?.sure) cries.heldOverWeeks++;
  else if (gap.heldNow !== undefined || kind === 'doubtful') cries.doubtful++;
}

function share(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
