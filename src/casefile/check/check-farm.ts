import type { Farm, GaitRound } from '../../record/farm.js';
import {
  type FarmCheckContext,
  type Findings,
  refuse,
  warn,
  checkIntervalsInOrder,
} from './check-context.js';
import { checkCorrectionsOfFarm } from './days.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';

/** What is wrong inside one farm's record. */
export function* checkFarm(farm: Farm, context: FarmCheckContext): Findings {
  yield* checkFarmPeriods(farm);
  for (const [i, round] of (farm['gait-rounds'] ?? []).entries())
    yield* checkGaitRound(farm, round, i, context);
  yield* checkFarmPlan(farm, context);
  yield* checkCorrectionsOfFarm(farm, context);
  yield* checkIntervalsInOrder(farm.intervals);
  if (farm['milkings-a-day'] === 0) yield refuse('no-milkings', ['milkings-a-day']);
}

/** The written foot-health plan: made by today, and kept in the farm's folder. It need be no picture. */
function* checkFarmPlan({ plan }: Farm, { today, farmSlug, picture }: FarmCheckContext): Findings {
  if (!plan) return;
  if (plan.date > today) yield refuse('plan-after-today', ['plan', 'date'], { day: plan.date, today });
  if (plan.file !== undefined && picture(plan.file).kind === 'outside')
    yield refuse('plan-outside', ['plan', 'file'], { file: plan.file, farm: farmSlug });
}

/** Periods of a list follow one another by their `from`, so that each day has one herd and one scale. */
function* checkFarmPeriods({ herd, 'gait-scale': scale, footbath = [] }: Farm): Findings {
  yield* outOfOrder('herd', herd);
  yield* outOfOrder('gait-scale', scale);
  for (const [i, { from, to }] of footbath.entries())
    if (from && to && to < from) yield refuse('footbath-ends-before', ['footbath', i, 'to'], { to, from });
}

function* outOfOrder(key: string, periods: unknown): Findings {
  if (!Array.isArray(periods)) return;
  const days = (periods as readonly { readonly from?: CalendarDay }[]).map(({ from }) => from);
  for (const [i, from] of days.entries()) {
    const before = days[i - 1];
    if (i > 0 && from === undefined) yield refuse(`${key}-without-from`, [key, i], { nth: i + 1 });
    if (from !== undefined && before !== undefined && from <= before)
      yield refuse(`${key}-out-of-order`, [key, i, 'from'], { from, before });
  }
}

/** A herd round counts cows by score: the scores lie on the scale, the counts add up. */
function* checkGaitRound(
  farm: Farm,
  { date: day, scored, counts }: GaitRound,
  i: number,
  { today }: FarmCheckContext,
): Findings {
  const path = ['gait-rounds', i];
  if (day > today) yield refuse('gait-round-after-today', [...path, 'date'], { day, today });
  const scale = gaitScaleOn(farm, day);
  if (scale) {
    const { lowest, highest } = gaitScale[scale];
    for (const score of Object.keys(counts))
      if (Number(score) < lowest || Number(score) > highest)
        yield refuse(
          'gait-round-off-scale',
          [...path, 'counts', score],
          { day, score, lowest, highest, scale },
          { at: 'key' },
        );
  } else yield refuse('gait-round-without-scale', path, { day });
  if (scored === undefined) return;
  const sum = Object.values(counts).reduce((all, some) => all + some, 0);
  const cows = cowsOn(farm, day);
  if (sum !== scored) yield warn('gait-round-not-adding-up', [...path, 'scored'], { day, scored, sum });
  else if (cows !== undefined && scored > cows)
    yield warn('gait-round-over-herd', [...path, 'scored'], { day, scored, cows });
}

function cowsOn({ herd }: Farm, date: string): number | undefined {
  if (!Array.isArray(herd)) return herd?.cows;
  return herd.findLast(({ from }) => from === undefined || from <= date)?.cows;
}
