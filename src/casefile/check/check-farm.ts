import type { Farm } from '../../record/farm.js';
import type { FarmCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { checkCorrectionsOfFarm } from './days-of-corrections.js';
import { checkFarmPeriods } from './farm-periods.js';
import { checkFarmPlan } from './farm-plan.js';
import { refuse } from './finding-at.js';
import { checkGaitRounds } from './gait-rounds.js';
import { checkIntervalsInOrder } from './intervals-in-order.js';

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
  return [
    refuse(
      'no-milkings',
      ['milkings-a-day'],
      'milkings-a-day is 0, expected how often the cows are milked',
      'write the number of milkings, or leave the key out',
    ),
  ];
}
