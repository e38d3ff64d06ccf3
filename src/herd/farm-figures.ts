import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import type { FarmRecord } from '../record/practice.js';
import { footbathSums, type FootbathSums } from './footbath/bath-sums.js';
import { lameAtRounds, type RoundShare } from './cow-years.js';
import { lameDays, type LameDays } from './lame-days.js';
import { lesionRates, type LesionRates } from './lesion-rates.js';
import { digestOf, type FarmDigest } from './farm-digest.js';
import { type Recurrence, recurrences } from './recurrence.js';
import { timeToHealed, type HealingOfKind, type TimeToEvent, timeToWalk } from './time-to-event.js';
import { workPerCase } from './work-per-case.js';

/** Figures that can be pooled over farms. */
export interface CaseFigures {
  readonly healed: readonly HealingOfKind[];
  readonly notLame: TimeToEvent;
  readonly sound: TimeToEvent;
  readonly recurrence: Recurrence;
  readonly dermatitis: Recurrence;
  readonly work: ReturnType<typeof workPerCase>;
}

/** All figures of one farm's page. */
export interface FarmFigures {
  readonly farm: CaseFigures;
  readonly rates?: LesionRates;
  readonly lameDays: readonly LameDays[];
  readonly rounds: readonly RoundShare[];
  readonly footbath: FootbathSums;
}

/**
 * The figures of one farm, from its own records alone, as of the day.
 *
 * Shape:   farm, day → data; the order of the files does not matter
 * Checked: tests/herd/farm-figures.test.ts
 */
export function farmFigures(farm: FarmRecord, today: CalendarDay): FarmFigures {
  return {
    farm: caseFigures([digestOf(farm, today)]),
    ...given({ rates: lesionRates(farm, today) }),
    lameDays: lameDays(farm, today),
    rounds: lameAtRounds(farm.farm, today),
    footbath: footbathSums(farm.farm, today),
  };
}

/** The same of several farms together. */
export function caseFigures(farms: readonly FarmDigest[]): CaseFigures {
  const files = farms.flatMap(({ cases }) => cases);
  return {
    healed: timeToHealed(farms),
    notLame: timeToWalk(farms, 'notLame'),
    sound: timeToWalk(farms, 'sound'),
    recurrence: recurrences(files.map(({ recurrence }) => recurrence)),
    dermatitis: recurrences(files.map(({ dermatitis }) => dermatitis)),
    work: workPerCase(farms),
  };
}

/** The same figures with something done to each of their times. */
export function withTimes(
  { healed, notLame, sound, ...rest }: CaseFigures,
  change: <T extends TimeToEvent>(times: T) => T,
): CaseFigures {
  return { ...rest, healed: healed.map(change), notLame: change(notLame), sound: change(sound) };
}
