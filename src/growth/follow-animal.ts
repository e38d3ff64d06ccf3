import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Mark } from '../record/lesion.js';
import type { UnplacedLesion } from './animal-growth.js';
import type { GrowingConditions } from './growing-conditions.js';
import type { GrowthLine } from './growth-line.js';
import { type Followed, followAndFindHeld } from './held-slowly.js';
import { readGap, readMark } from './read-lines.js';
import { type GapPlace, wallGaps } from './wall-gaps.js';
import type { Prior } from './what-is-known.js';

/** The day on which it is worked out, and what is held of her growth beforehand. */
export interface GrowthOptions {
  readonly today: CalendarDay;
  readonly prior: Prior;
  /** Lesions under a same-day notice: no date is told of them. */
  readonly underNotice?: ReadonlySet<string>;
}

/** An animal's lines followed through all their readings up to a day. */
export interface AnimalFollowed {
  readonly gaps: readonly GapPlace[];
  readonly unplaced: readonly UnplacedLesion[];
  readonly marks: readonly (readonly [string, Mark])[];
  /** Its lines: first the gaps, then the marks, then those added, in their order. */
  readonly followed: Followed;
}

/**
 * Follows all lines of an animal together, up to a day: wall gaps, growth marks, and any lines added.
 *
 * Valid:   `added`: lines with no reading yet, such as a notch that might be filed; they change nothing
 * Checked: tests/growth/growth-cases.test.ts
 */
export function followAnimal(
  animal: Animal,
  conditions: GrowingConditions,
  { today, prior, underNotice }: GrowthOptions,
  added: readonly GrowthLine[] = [],
): AnimalFollowed {
  const { placed: gaps, unplaced } = wallGaps(animal, today, underNotice);
  const marks = Object.entries(animal.marks ?? {});
  const lines = [
    ...gaps.map((gap) => readGap(animal, gap.lesion, gap, today)),
    ...marks.map(([name, mark]) => readMark(animal, name, mark, today)),
    ...added,
  ];
  return { gaps, unplaced, marks, followed: followAndFindHeld(lines, conditions, prior) };
}
