import { cowsOn, lameAtRound } from '../../herd/cow-years.js';
import { printedShare } from '../../herd/printed-figure.js';
import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm, GaitRound } from '../../record/farm.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { GaitScale } from '../../record/words.js';
import { gaitScale } from '../../reference/scales.js';
import type { Estimate } from '../../statistics/estimate.js';
import { type Training, trainingOn } from './worker.js';
import { given } from '../../record/given.js';

/** One whole-herd round of the period. */
export interface RoundInPeriod {
  readonly round: GaitRound;
  readonly training: Training;
  /** Absent where the farm names no scale for that day: then nothing can be called lame. */
  readonly scored?: {
    readonly scale: GaitScale;
    readonly cows: number;
    readonly lame: number;
    readonly severe: number;
    /** Wilson's 95 % bounds of the share lame; absent where too few were scored to print it. */
    readonly range?: Estimate;
  };
  /** Cows in the herd on that day, where it is written. */
  readonly herd?: number;
}

/** The whole-herd rounds of a period, by their day: lame and severe are of the cows scored, never of the herd. */
export function roundsInPeriod(
  farm: Farm,
  business: Business,
  period: Period,
  today: CalendarDay,
): RoundInPeriod[] {
  return (farm['gait-rounds'] ?? [])
    .filter(({ date }) => isInPeriod(date, period) && date <= today)
    .toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
    .map((round) => {
      const scale = gaitScaleOn(farm, round.date);
      const herd = cowsOn(farm, round.date);
      return {
        round,
        training: trainingOn(business, round.by, round.date),
        ...(scale ? { scored: scoredAt(round, scale) } : {}),
        ...given({ herd }),
      };
    });
}

function scoredAt(round: GaitRound, scale: GaitScale): NonNullable<RoundInPeriod['scored']> {
  const { lame, scored: cows } = lameAtRound(round, scale);
  const severe = Object.entries(round.counts).reduce(
    (sum, [score, count]) => (Number(score) >= gaitScale[scale].severeFrom ? sum + count : sum),
    0,
  );
  const range = printedShare(lame, cows);
  return { scale, cows, lame, severe, ...(range ? { range } : {}) };
}
