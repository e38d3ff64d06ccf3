import { z } from 'zod';
import { blockTimeline } from '../healing/block-timeline.js';
import { episodesOf } from '../healing/episode.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import { isLiftingVisit } from '../record/lifting.js';
import { animalNames, type FilesOfFarm } from '../record/same-animal.js';
import { spreadOf, type Spread } from './printed-figure.js';

/** What one lameness episode took. */
export const workOfCase = z.strictObject({ ended: z.boolean(), visits: z.number(), blocks: z.number() });
type WorkOfCase = Readonly<z.infer<typeof workOfCase>>;

/**
 * What each of her cases took, or, while it is running, has taken so far.
 *
 * A case is a lameness episode with at least one lifted visit. A block counts each time one was fitted, a
 * replacement too; one that somebody else had fitted does not.
 *
 * Checked: tests/herd/work-per-case.test.ts
 */
export function workOfCases(animal: Animal, today: CalendarDay): WorkOfCase[] {
  const { spans } = blockTimeline(animal, today);
  return episodesOf(animal, today)
    .map(({ visits, ended }) => ({
      ended: ended !== undefined,
      visits: visits.filter((at) => isLiftingVisit(animal.visits[at]!)).length,
      blocks: spans.filter(({ fitted, visit }) => fitted && visits.includes(visit)).length,
    }))
    .filter(({ visits }) => visits > 0);
}

/** Visits at which feet were lifted, and blocks we fitted, in each lameness episode. */
export type WorkPerCase = Readonly<{ visits: Spread; blocks: Spread }>;

/**
 * What cases took on some farms: ended ones, and those still running apart, since theirs is only what they took so far.
 *
 * Checked: tests/herd/work-per-case.test.ts
 */
export function workPerCase(farms: readonly FilesOfFarm<{ readonly work: readonly WorkOfCase[] }>[]): {
  readonly ended?: WorkPerCase;
  readonly running?: WorkPerCase;
} {
  const nameOf = animalNames(farms);
  const cases = farms.flatMap(({ slug: farm, cases: files }) =>
    files.flatMap(({ slug, work }) => work.map((one) => ({ ...one, name: nameOf({ farm, slug }) }))),
  );
  const of = (isEnded: boolean) => spread(cases.filter(({ ended }) => ended === isEnded));
  return given({ ended: of(true), running: of(false) });
}

function spread(cases: readonly { name: string; visits: number; blocks: number }[]): WorkPerCase | undefined {
  const animals = new Set(cases.map(({ name }) => name)).size;
  const of = (what: 'visits' | 'blocks') => cases.map((one) => one[what]);
  const [visits, blocks] = [spreadOf(of('visits'), animals), spreadOf(of('blocks'), animals)];
  return visits && blocks && { visits, blocks };
}
