import type { Farm } from '../../record/farm.js';
import type { FarmCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/** The written foot-health plan: made by today, and kept in the farm's folder. It need be no picture. */
export function checkFarmPlan({ plan }: Farm, { today, farmSlug, picture }: FarmCheckContext): Finding[] {
  if (!plan) return [];
  const found: Finding[] = [];
  if (plan.date > today)
    found.push(
      refuse(
        'plan-after-today',
        ['plan', 'date'],
        `the plan is dated ${plan.date}, expected no day after today, ${today}`,
        'write the day the plan was made',
      ),
    );
  if (plan.file !== undefined && picture(plan.file).kind === 'outside')
    found.push(
      refuse(
        'plan-outside',
        ['plan', 'file'],
        `${plan.file} lies outside the farm's folder, expected a name inside ${farmSlug}/`,
        `put the plan in ${farmSlug}/ and write its name from there`,
      ),
    );
  return found;
}
