import type { Animal } from '../record/animal.js';
import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import { lengthDoubted } from '../record/doubts.js';
import type { Mark } from '../record/lesion.js';
import type { Claw, Foot, WallLine } from '../record/words.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { type GrowthLine, type LineReading, isMeasured } from './growth-line.js';
import { readingError } from '../reference/reading-error.js';
import { lactationOn, referenceRate } from './reference-rate.js';
import { given } from '../record/given.js';

interface Place {
  readonly foot: Foot;
  readonly claw: Claw;
  readonly line: WallLine;
}

/**
 * The line of a wall gap with all its readings up to a day.
 *
 * Rate and first reader are settled by the first reading that has a length to trust, and stay.
 *
 * Checked: tests/growth/read-lines.test.ts
 */
export function readGap(animal: Animal, name: string, place: Place, upTo: CalendarDay): GrowthLine {
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
  { foot, claw, line }: Place,
  list: readonly LineReading[],
  upTo: CalendarDay,
): GrowthLine {
  const first = list.find(isMeasured);
  const lactation = lactationOn(animal, first?.date ?? upTo);
  const readers = list.map((reading) =>
    reading.mm === undefined || first === undefined
      ? reading
      : { ...reading, sigmaMm: readingError(reading.tool, reading.mm, reading.by === first.by) },
  );
  return {
    name,
    of,
    rate: referenceRate({ foot, claw, line, lactation }),
    deviation: growthNumbers.lines[line].deviation.value,
    readings: readers,
  };
}

function readings(animal: Animal, name: string, upTo: CalendarDay, key: 'top' | 'distance'): LineReading[] {
  const list: LineReading[] = [];
  for (const [index, visit] of animal.visits.entries()) {
    const found = visit.found?.[name];
    if (found === undefined || visit.date > upTo) continue;
    const mm = found[key];
    const notReached = found['top-found'] === 'higher';
    if (mm === undefined && !notReached) continue;
    const asked = lengthDoubted(animal, index, name, key);
    list.push({
      date: visit.date,
      day: dayNumber(visit.date),
      visit: index,
      by: visit.by,
      ...given({ tool: found.tool, topFound: found['top-found'], mm }),
      sigmaMm: 0,
      ...given({ asked }),
      notReached,
      saidRanUp: found['ran-up'] ?? false,
      saidOpenedFurther: found['opened-further'] ?? false,
      underLooseHorn:
        found.signs?.includes('loose horn') === true && visit['cut-back']?.includes(name) !== true,
    });
  }
  return list.sort((a, b) => a.day - b.day);
}
