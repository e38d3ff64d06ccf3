import { blockTimeline } from '../healing/block-timeline.js';
import { episodesOf } from '../healing/episode.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { FarmRecord } from '../record/practice.js';
import { spreadOf, type Spread } from './printed-figure.js';
import { animalNames } from '../record/same-animal.js';

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
