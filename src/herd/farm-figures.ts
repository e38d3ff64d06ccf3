import { blockTimeline } from '../healing/block-timeline.js';
import { episodesOf } from '../healing/episode.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { FarmRecord } from '../record/practice.js';
import { spreadOf, type Spread } from './printed-figure.js';
import { animalNames } from '../record/same-animal.js';
import { footbathSums, type FootbathSums } from './footbath/bath-sums.js';
import { lameAtRounds, type RoundShare } from './cow-years.js';
import { lameDays, type LameDays } from './lame-days.js';
import { lesionRates, type LesionRates } from './lesion-rates.js';
import { recurrenceOfLesions, returnsOfDermatitis, type Recurrence } from './recurrence.js';
import { timeToHealed, type HealingOfKind, type TimeToEvent, timeToWalk } from './time-to-event.js';

/** Visits at which feet were lifted, and blocks we fitted, in each run of trouble. */
export interface WorkPerCase {
  readonly visits: Spread;
  readonly blocks: Spread;
}

/**
 * What a case took: ended ones, and those still running apart, since theirs is only what they took so far.
 *
 * A case is a run of trouble with at least one lifted visit. A block counts each time one was fitted, a
 * replacement too; one that somebody else had fitted does not.
 *
 * Checked: tests/herd/work-per-case.test.ts
 */
export function workPerCase(
  farms: readonly FarmRecord[],
  today: CalendarDay,
): { readonly ended?: WorkPerCase; readonly running?: WorkPerCase } {
  const nameOf = animalNames(farms);
  const cases = farms
    .flatMap((farm) =>
      farm.cases.map(({ slug, animal }) => ({ animal, name: nameOf({ farm: farm.slug, slug }) })),
    )
    .flatMap(({ animal, name }) => {
      const { spans } = blockTimeline(animal, today);
      return episodesOf(animal, today).map(({ visits, ended }) => ({
        name,
        ended: ended !== undefined,
        visits: visits.filter((at) => isLiftingVisit(animal.visits[at]!)).length,
        blocks: spans.filter(({ fitted, visit }) => fitted && visits.includes(visit)).length,
      }));
    })
    .filter(({ visits }) => visits > 0);
  const ended = spread(cases.filter((one) => one.ended));
  const running = spread(cases.filter((one) => !one.ended));
  return { ...(ended ? { ended } : {}), ...(running ? { running } : {}) };
}

function spread(cases: readonly { name: string; visits: number; blocks: number }[]): WorkPerCase | undefined {
  const animals = new Set(cases.map(({ name }) => name)).size;
  const of = (what: 'visits' | 'blocks') =>
    spreadOf(
      cases.map((one) => one[what]),
      animals,
    );
  const [visits, blocks] = [of('visits'), of('blocks')];
  return visits && blocks && { visits, blocks };
}

/** Figures that can be pooled over farms. */
export interface CaseFigures {
  readonly healed: readonly HealingOfKind[];
  readonly notLame: TimeToEvent;
  readonly sound: TimeToEvent;
  readonly recurrence: Recurrence;
  readonly dermatitis: Recurrence;
  readonly work: { readonly ended?: WorkPerCase; readonly running?: WorkPerCase };
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
  const rates = lesionRates(farm, today);
  return {
    farm: caseFigures([farm], today),
    ...(rates ? { rates } : {}),
    lameDays: lameDays(farm, today),
    rounds: lameAtRounds(farm.farm, today),
    footbath: footbathSums(farm.farm, today),
  };
}

/** The same of several farms together. */
export function caseFigures(farms: readonly FarmRecord[], today: CalendarDay): CaseFigures {
  return {
    healed: timeToHealed(farms, today),
    notLame: timeToWalk(farms, today, 'not-lame'),
    sound: timeToWalk(farms, today, 'sound'),
    recurrence: recurrenceOfLesions(farms, today),
    dermatitis: returnsOfDermatitis(farms, today),
    work: workPerCase(farms, today),
  };
}

/** The same figures with something done to each of their times. */
export function withTimes(
  { healed, notLame, sound, ...rest }: CaseFigures,
  change: <T extends TimeToEvent>(times: T) => T,
): CaseFigures {
  return { ...rest, healed: healed.map(change), notLame: change(notLame), sound: change(sound) };
}
