import type { Farm, GaitRound } from '../../record/farm.js';
import {
  type FarmCheckContext,
  refuse,
  warn,
  checkIntervalsInOrder,
  type BusinessCheckContext,
} from './check-context.js';
import { checkCorrectionsOfFarm } from './days.js';
import type { Finding, RecordPath } from '../../problem/problem.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';
import type { Business } from '../../record/business.js';

/** What is wrong inside one farm's record. */
export function checkFarm(farm: Farm, context: FarmCheckContext): Finding[] {
  return [
    ...checkFarmPeriods(farm),
    ...checkGaitRounds(farm, context),
    ...checkFarmPlan(farm, context),
    ...checkCorrectionsOfFarm(farm, context),
    ...checkIntervalsInOrder(farm.intervals),
    ...milkedAtAll(farm),
  ];
}

function milkedAtAll({ 'milkings-a-day': milkings }: Farm): Finding[] {
  if (milkings !== 0) return [];
  return [refuse('no-milkings', ['milkings-a-day'])];
}

/** The written foot-health plan: made by today, and kept in the farm's folder. It need be no picture. */
function checkFarmPlan({ plan }: Farm, { today, farmSlug, picture }: FarmCheckContext): Finding[] {
  if (!plan) return [];
  const found: Finding[] = [];
  if (plan.date > today) found.push(refuse('plan-after-today', ['plan', 'date'], { day: plan.date, today }));
  if (plan.file !== undefined && picture(plan.file).kind === 'outside')
    found.push(refuse('plan-outside', ['plan', 'file'], { file: plan.file, farm: farmSlug }));
  return found;
}

/** Periods of a list follow one another by their `from`, so that each day has one herd and one scale. */
function checkFarmPeriods({ herd, 'gait-scale': scale, footbath }: Farm): Finding[] {
  return [
    ...outOfOrder('herd', Array.isArray(herd) ? herd : []),
    ...outOfOrder('gait-scale', Array.isArray(scale) ? scale : []),
    ...(footbath ?? []).flatMap(({ from, to }, i) =>
      from && to && to < from ? [refuse('footbath-ends-before', ['footbath', i, 'to'], { to, from })] : [],
    ),
  ];
}

function outOfOrder(
  key: 'herd' | 'gait-scale',
  periods: readonly { readonly from?: CalendarDay | undefined }[],
): Finding[] {
  return periods.flatMap(({ from }, i) => {
    if (i === 0) return [];
    const path: RecordPath = from === undefined ? [key, i] : [key, i, 'from'];
    if (from === undefined) return [refuse(`${key}-without-from`, path, { nth: i + 1 })];
    const before = periods[i - 1]?.from;
    return before === undefined || from > before
      ? []
      : [refuse(`${key}-out-of-order`, path, { from, before })];
  });
}

/** A herd round counts cows by score: the scores lie on the scale, the counts add up. */
function checkGaitRounds(farm: Farm, { today }: FarmCheckContext): Finding[] {
  return (farm['gait-rounds'] ?? []).flatMap((round, i) => [
    ...(round.date > today
      ? [refuse('gait-round-after-today', ['gait-rounds', i, 'date'], { day: round.date, today })]
      : []),
    ...onScale(farm, round, i),
    ...addingUp(farm, round, i),
  ]);
}

function onScale(farm: Farm, { date, counts }: GaitRound, i: number): Finding[] {
  const scale = gaitScaleOn(farm, date);
  if (!scale) return [refuse('gait-round-without-scale', ['gait-rounds', i], { day: date })];
  const { lowest, highest } = gaitScale[scale];
  return Object.keys(counts)
    .filter((score) => Number(score) < lowest || Number(score) > highest)
    .map((score) =>
      refuse(
        'gait-round-off-scale',
        ['gait-rounds', i, 'counts', score],
        { day: date, score, lowest, highest, scale },
        { at: 'key' },
      ),
    );
}

function addingUp(farm: Farm, { date, scored, counts }: GaitRound, i: number): Finding[] {
  if (scored === undefined) return [];
  const counted = Object.values(counts).reduce((sum, cows) => sum + cows, 0);
  const path = ['gait-rounds', i, 'scored'];
  if (counted !== scored)
    return [warn('gait-round-not-adding-up', path, { day: date, scored, sum: counted })];
  const cows = cowsOn(farm, date);
  if (cows === undefined || scored <= cows) return [];
  return [warn('gait-round-over-herd', path, { day: date, scored, cows })];
}

function cowsOn({ herd }: Farm, date: string): number | undefined {
  if (!Array.isArray(herd)) return herd?.cows;
  return herd.findLast(({ from }) => from === undefined || from <= date)?.cows;
}

/** What is wrong inside the trimmer's own record. A training that has run out is a fact, not a slip. */
export function checkBusiness(business: Business, _context: BusinessCheckContext): Finding[] {
  return checkIntervalsInOrder(business.intervals);
}
