import { blockTimeline } from '../healing/block-timeline.js';
import { episodesOf } from '../healing/episode.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { FarmRecord } from '../record/practice.js';
import { spreadOfCounts, type SpreadOfCounts } from './spread-of-counts.js';

/** Visits at which feet were lifted, and blocks we fitted, in each run of trouble. */
export interface WorkPerCase {
  readonly visits: SpreadOfCounts;
  readonly blocks: SpreadOfCounts;
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
  const cases = farms
    .flatMap(({ cases: records }) => records)
    .flatMap(({ animal }) => {
      const { spans } = blockTimeline(animal, today);
      return episodesOf(animal, today).map(({ visits, ended }) => ({
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

function spread(cases: readonly { visits: number; blocks: number }[]): WorkPerCase | undefined {
  const visits = spreadOfCounts(cases.map((one) => one.visits));
  const blocks = spreadOfCounts(cases.map((one) => one.blocks));
  return visits && blocks && { visits, blocks };
}
