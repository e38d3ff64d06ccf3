import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { lengthDoubted } from '../record/doubts.js';
import type { Claw, Foot, WallLine } from '../record/words.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { WallLength } from './animal-growth.js';
import { wallError } from '../reference/reading-error.js';
import { timesCalved } from './reference-rate.js';
import { given } from '../record/given.js';

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
export function wallLength(
  animal: Animal,
  place: { readonly foot: Foot; readonly claw: Claw; readonly line: WallLine },
  upTo: CalendarDay,
): WallLength {
  const here = Object.entries(animal.lesions)
    .filter(([, { foot, claw, line }]) => foot === place.foot && claw === place.claw && line === place.line)
    .map(([name]) => name);
  for (const [at, visit] of [...animal.visits.entries()].reverse()) {
    if (visit.date > upTo) continue;
    for (const [under, found] of Object.entries(visit.found ?? {}).reverse()) {
      const { wall: mm } = found;
      if (mm === undefined || found['wall-lowered'] === true || !here.includes(under)) continue;
      const beside = found['wall-at'] === 'beside';
      const asked = lengthDoubted(animal, at, under, 'wall');
      return {
        mm,
        sdMm: wallError(found),
        source: 'measured',
        measured: { date: visit.date, under, beside, ...given({ asked }) },
        likelyTooLong: false,
      };
    }
  }
  const { wall, wallSd } = growthNumbers.lines[place.line];
  const likelyTooLong = timesCalved(animal, upTo) === 0 || isSmallBreed(animal.breed);
  return { mm: wall.value, sdMm: wallSd.value, source: 'reference', likelyTooLong };
}

function isSmallBreed(breed: string | undefined): boolean {
  const words = (breed ?? '').toLowerCase().split(/[^a-z]+/);
  return growthNumbers.smallBreeds.names.some((name) => words.includes(name));
}
