import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { Farm, GaitRound } from '../../record/farm.js';
import { gaitScale } from '../../reference/scales.js';
import type { FarmCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';

/** A herd round counts cows by score: the scores lie on the scale, the counts add up. */
export function checkGaitRounds(farm: Farm, { today }: FarmCheckContext): Finding[] {
  return (farm['gait-rounds'] ?? []).flatMap((round, i) => [
    ...(round.date > today
      ? [
          refuse(
            'gait-round-after-today',
            ['gait-rounds', i, 'date'],
            `the gait round is dated ${round.date}, expected no day after today, ${today}`,
            'correct the year or the day',
          ),
        ]
      : []),
    ...onScale(farm, round, i),
    ...addingUp(farm, round, i),
  ]);
}

function onScale(farm: Farm, { date, counts }: GaitRound, i: number): Finding[] {
  const scale = gaitScaleOn(farm, date);
  if (!scale)
    return [
      refuse(
        'gait-round-without-scale',
        ['gait-rounds', i],
        `the gait round of ${date} has no scale: farm.md has no gait-scale in force on that day`,
        'write `gait-scale`, for example `gait-scale: uk-0-3`',
      ),
    ];
  const { lowest, highest } = gaitScale[scale];
  return Object.keys(counts)
    .filter((score) => Number(score) < lowest || Number(score) > highest)
    .map((score) =>
      refuse(
        'gait-round-off-scale',
        ['gait-rounds', i, 'counts', score],
        `the gait round of ${date} counts score ${score}, expected ${lowest} to ${highest} on ${scale}`,
        'correct the score, or the scale in force on that day',
        'key',
      ),
    );
}

function addingUp(farm: Farm, { date, scored, counts }: GaitRound, i: number): Finding[] {
  if (scored === undefined) return [];
  const counted = Object.values(counts).reduce((sum, cows) => sum + cows, 0);
  const path = ['gait-rounds', i, 'scored'];
  if (counted !== scored)
    return [
      warn(
        'gait-round-not-adding-up',
        path,
        `the gait round of ${date} scored ${scored} cows and its counts add up to ${counted}`,
        'correct `scored` or the counts',
      ),
    ];
  const cows = cowsOn(farm, date);
  if (cows === undefined || scored <= cows) return [];
  return [
    warn(
      'gait-round-over-herd',
      path,
      `the gait round of ${date} scored ${scored} cows, and the herd is given as ${cows}`,
      'correct `scored`, or the cows of the herd on that day',
    ),
  ];
}

function cowsOn({ herd }: Farm, date: string): number | undefined {
  if (!Array.isArray(herd)) return herd?.cows;
  return herd.findLast(({ from }) => from === undefined || from <= date)?.cows;
}
