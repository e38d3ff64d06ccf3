import type { Animal } from '../record/animal.js';
import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import { lengthDoubted } from '../record/doubts.js';
import type { Mark } from '../record/lesion.js';
import { growthNumbers, readingError, wallError } from '../reference/growth-numbers.js';
import {
  type GrowthLine,
  type LinePlace,
  type LineReading,
  isMeasured,
  lactationOn,
  referenceRate,
  type GrowingConditions,
  timesCalved,
} from './growth-line.js';
import { given } from '../record/given.js';
import type { WallLength } from './animal-growth.js';
import { followAndFindHeld } from './follow-lines.js';
import { wallGaps } from './wall-gaps.js';
import type { Prior } from './what-is-known.js';

/**
 * The line of a wall gap with all its readings up to a day.
 *
 * Rate and first reader are settled by the first reading that has a length to trust, and stay.
 *
 * Checked: tests/growth/read-lines.test.ts
 */
export function readGap(animal: Animal, name: string, place: LinePlace, upTo: CalendarDay): GrowthLine {
  return lineOf(animal, name, 'gap', place, readings(animal, name, upTo, 'top'), upTo);
}

/** The line of a growth mark; a groove also starts at the coronet on the day of its event. */
export function readMark(animal: Animal, name: string, mark: Mark, upTo: CalendarDay): GrowthLine {
  const list = readings(animal, name, upTo, 'distance');
  const line = lineOf(animal, name, 'mark', mark, list, upTo);
  const event = mark['groove-from'];
  const first = line.readings.find(isMeasured);
  const known = event !== undefined && first !== undefined && event <= first.date;
  return known ? { ...line, grooveFrom: dayNumber(event) } : line;
}

function lineOf(
  animal: Animal,
  name: string,
  of: GrowthLine['of'],
  { foot, claw, line }: LinePlace,
  list: readonly LineReading[],
  upTo: CalendarDay,
): GrowthLine {
  const first = list.find(isMeasured);
  const lactation = lactationOn(animal, first?.date ?? upTo);
  return {
    name,
    of,
    rate: referenceRate({ foot, claw, line, lactation }),
    deviation: growthNumbers.lines[line].deviation.value,
    readings: list.map((one) =>
      one.mm === undefined || first === undefined
        ? one
        : { ...one, sigmaMm: readingError(one.tool, one.mm, one.by === first.by) },
    ),
  };
}

function readings(animal: Animal, name: string, upTo: CalendarDay, key: 'top' | 'distance'): LineReading[] {
  return animal.visits
    .flatMap(({ date, by, found: all, 'cut-back': cutBack }, visit): LineReading[] => {
      const found = all?.[name];
      const mm = found?.[key];
      const notReached = found?.['top-found'] === 'higher';
      if (found === undefined || date > upTo || (mm === undefined && !notReached)) return [];
      const reading = {
        date,
        day: dayNumber(date),
        visit,
        by,
        ...given({ tool: found.tool, topFound: found['top-found'], mm }),
        sigmaMm: 0,
        ...given({ asked: lengthDoubted(animal, visit, name, key) }),
        notReached,
        saidRanUp: found['ran-up'] ?? false,
        saidOpenedFurther: found['opened-further'] ?? false,
        underLooseHorn: found.signs?.includes('loose horn') === true && cutBack?.includes(name) !== true,
      };
      return [reading];
    })
    .sort((a, b) => a.day - b.day);
}

/** The day on which it is worked out, and what is held of her growth beforehand. */
export interface GrowthOptions {
  readonly today: CalendarDay;
  readonly prior: Prior;
  /** Lesions under a same-day notice: no date is given of them. */
  readonly underNotice?: ReadonlySet<string>;
}

/** An animal's lines followed through all their readings up to a day. */
export type AnimalFollowed = ReturnType<typeof followAnimal>;

/**
 * Follows all lines of an animal together, up to a day: first the wall gaps, then the growth marks, then any lines added.
 *
 * Valid:   `added`: lines with no reading yet, such as a notch that might be filed; they change nothing
 * Checked: tests/growth/growth-cases.test.ts
 */
export function followAnimal(
  animal: Animal,
  conditions: GrowingConditions,
  { today, prior, underNotice }: GrowthOptions,
  added: readonly GrowthLine[] = [],
) {
  const { placed: gaps, unplaced } = wallGaps(animal, today, underNotice);
  const marks = Object.entries(animal.marks ?? {});
  const lines = [
    ...gaps.map((gap) => readGap(animal, gap.lesion, gap, today)),
    ...marks.map(([name, mark]) => readMark(animal, name, mark, today)),
    ...added,
  ];
  return { gaps, unplaced, marks, followed: followAndFindHeld(lines, conditions, prior) };
}

/**
 * The length the wall has on a line, coronet to ground: how far the top of a gap has to go.
 *
 * The latest measured on that foot, claw and line up to the day, under whichever lesion it was
 * written; never one measured after the claw was lowered. Of several on one day the last written
 * counts. Else the length of an average adult Holstein, and the book says so.
 *
 * Unit:    mm
 * Source:  shared/growth.json `lines.*.wall`, `smallBreeds`, `reading.beside`
 * Checked: tests/growth/wall-length.test.ts
 */
export function wallLength(animal: Animal, place: LinePlace, upTo: CalendarDay): WallLength {
  const here = Object.entries(animal.lesions)
    .filter(([, { foot, claw, line }]) => foot === place.foot && claw === place.claw && line === place.line)
    .map(([name]) => name);
  for (const [at, { date, found: all = {} }] of [...animal.visits.entries()].reverse())
    for (const [under, found] of date > upTo ? [] : Object.entries(all).reverse()) {
      const { wall: mm } = found;
      if (mm === undefined || found['wall-lowered'] === true || !here.includes(under)) continue;
      const beside = found['wall-at'] === 'beside';
      const asked = lengthDoubted(animal, at, under, 'wall');
      const measured = { date, under, beside, ...given({ asked }) };
      return { mm, sdMm: wallError(found), source: 'measured', measured, likelyTooLong: false };
    }
  const { wall, wallSd } = growthNumbers.lines[place.line];
  const likelyTooLong = timesCalved(animal, upTo) === 0 || isSmallBreed(animal.breed);
  return { mm: wall.value, sdMm: wallSd.value, source: 'reference', likelyTooLong };
}

function isSmallBreed(breed: string | undefined): boolean {
  const words = (breed ?? '').toLowerCase().split(/[^a-z]+/);
  return growthNumbers.smallBreeds.names.some((name) => words.includes(name));
}
