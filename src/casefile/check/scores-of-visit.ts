import type { Animal } from '../../record/animal.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { Visit } from '../../record/visit.js';
import { conditionScale, gaitScale } from '../../reference/scales.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/** A score means nothing without its scale: the farm declares one, and the score lies on it. */
export function checkScoresOfVisit(animal: Animal, context: AnimalCheckContext): Finding[] {
  return animal.visits.flatMap((visit, i) => [...gait(visit, i, context), ...condition(visit, i, context)]);
}

function gait({ gait: score, date }: Visit, i: number, { farm, farmSlug }: AnimalCheckContext): Finding[] {
  if (score === undefined || !farm) return [];
  const path = ['visits', i, 'gait'];
  const scale = gaitScaleOn(farm, date);
  if (!scale)
    return [
      refuse(
        'gait-without-scale',
        path,
        `gait is ${score}, and ${farmSlug}/farm.md has no gait-scale in force on ${date}`,
        `write \`gait-scale\` in ${farmSlug}/farm.md, for example \`gait-scale: uk-0-3\`: \`growdown correct ${farmSlug} gait-scale uk-0-3\` does it`,
      ),
    ];
  const { lowest, highest, step } = gaitScale[scale];
  if (score < lowest || score > highest)
    return [
      refuse(
        'gait-off-scale',
        path,
        `gait is ${score}, expected ${lowest} to ${highest} on ${scale}`,
        `correct the score, or the scale in ${farmSlug}/farm.md`,
      ),
    ];
  if (!Number.isInteger((score - lowest) / step))
    return [
      refuse(
        'gait-between-steps',
        path,
        `gait is ${score}, expected a whole number: ${scale} has no half steps`,
        'write the whole score she met',
      ),
    ];
  return [];
}

function condition(
  { condition: score }: Visit,
  i: number,
  { farm, farmSlug }: AnimalCheckContext,
): Finding[] {
  if (score === undefined || !farm) return [];
  const path = ['visits', i, 'condition'];
  const scale = farm['condition-scale'];
  if (!scale)
    return [
      refuse(
        'condition-without-scale',
        path,
        `condition is ${score}, and ${farmSlug}/farm.md has no condition-scale`,
        `write \`condition-scale\` in ${farmSlug}/farm.md, for example \`condition-scale: uk-1-5\`: \`growdown correct ${farmSlug} condition-scale uk-1-5\` does it`,
      ),
    ];
  const { lowest, highest } = conditionScale[scale];
  if (score >= lowest && score <= highest) return [];
  return [
    refuse(
      'condition-off-scale',
      path,
      `condition is ${score}, expected ${lowest} to ${highest} on ${scale}`,
      `correct the score, or the scale in ${farmSlug}/farm.md`,
    ),
  ];
}
