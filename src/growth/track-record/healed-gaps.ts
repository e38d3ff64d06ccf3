import type { Animal } from '../../record/animal.js';
import { type CalendarDay, dayNumber } from '../../record/calendar-day.js';
import { isLeftDown } from '../../record/lifting.js';
import { type GapPlace, wallGaps } from '../wall-gaps.js';

/** A wall gap that was seen healed, and between which days it came to be: after the one, by the other. */
export interface HealedGap {
  readonly lesion: string;
  /** Last seen not yet healed, first seen healed: (after, by]. */
  readonly after: CalendarDay;
  readonly by: CalendarDay;
  /** Days after which a forecast was made: those of its readings up to `after`, but where the expected reading was seen first. */
  readonly forecastOn: readonly CalendarDay[];
  /** The same, where the expected reading had been seen before measuring: left out. */
  readonly leftOut: number;
}

/**
 * Finds the wall gaps of an animal that were seen healed, with the days on which a forecast was made of each.
 *
 * Valid:   only what was seen on a lifted foot; a gap that is covered is not healed yet; a gap first seen healed, or
 *          followed elsewhere after it joined another, has no forecast to score
 * Checked: tests/growth/track-record.test.ts, tests/hand-worked/track-record.test.ts
 */
export function healedGaps(animal: Animal, today: CalendarDay): HealedGap[] {
  return wallGaps(animal, today).placed.flatMap((place) => healedGap(animal, place, today) ?? []);
}

function healedGap(animal: Animal, { lesion, foot }: GapPlace, today: CalendarDay): HealedGap | undefined {
  const looks = animal.visits.flatMap((visit) => {
    const found = visit.found?.[lesion];
    if (found === undefined || visit.date > today || isLeftDown(visit, foot, found)) return [];
    return { date: visit.date, found, sawExpected: visit['saw-expected'] === true };
  });
  const healed = looks.find(({ found }) => found.state === 'healed');
  if (healed === undefined) return undefined;
  const openLooks = looks.filter(({ date, found }) => date < healed.date && isNotYetHealed(found.state));
  const after = openLooks.at(-1)?.date;
  if (after === undefined || looks.some(({ found }) => found.joined !== undefined)) return undefined;
  const read = looks.filter(
    ({ date, found }) => date <= after && (found.top !== undefined || found['top-found'] === 'higher'),
  );
  const days = [...new Set(read.map(({ date }) => date))];
  const anchored = new Set(read.filter(({ sawExpected }) => sawExpected).map(({ date }) => date));
  return {
    lesion,
    after,
    by: healed.date,
    forecastOn: days.filter((date) => !anchored.has(date)),
    leftOut: anchored.size,
  };
}

function isNotYetHealed(state: string | undefined): boolean {
  return state === 'open' || state === 'covered';
}

/** Day numbers of the truth. */
export function truthOf({ after, by }: HealedGap): { readonly after: number; readonly by: number } {
  return { after: dayNumber(after), by: dayNumber(by) };
}
