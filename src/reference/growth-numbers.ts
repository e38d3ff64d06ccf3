import type growth from '../../shared/growth.json';
import { readNumbers } from './sourced.js';
import type { Found } from '../record/visit.js';
import type { Tool } from '../record/words.js';

/** Every number that the growth of horn is worked out with, each with its address; `shared/growth.json`. */
export const growthNumbers = readNumbers<typeof growth>('growth.json');

const errors = growthNumbers.reading;

/**
 * How far a length read with a tool may be off: one standard deviation.
 *
 * Unit:    mm
 * Valid:   a tool not written down counts as a ruler; by eye a long reading is worse than a short one
 * Source:  shared/growth.json `reading`
 * Checked: tests/reference/reading-error.test.ts
 * @example toolError('eye', 75) // → 9
 */
export function toolError(tool: Tool | undefined, readingMm: number): number {
  if (tool === undefined) return errors.notStated.value;
  if (tool === 'eye') return Math.max(errors.eye.value, errors.eyeShare.value * readingMm);
  return errors[tool].value;
}

/**
 * How far a wall length may be off: by its own tool, and by more where it was read beside the gap.
 *
 * Unit:    mm
 * Valid:   no other-reader term: a wall is measured, not followed
 * Source:  shared/growth.json `reading.beside`
 * Checked: tests/reference/reading-error.test.ts
 * @example wallError({ wall: 40, tool: 'ruler' }) // → 2
 */
export function wallError(found: Pick<Found, 'wall' | 'wall-at' | 'wall-tool' | 'tool'>): number {
  const alone = toolError(found['wall-tool'] ?? found.tool, found.wall ?? 0);
  return found['wall-at'] === 'beside' ? Math.hypot(alone, errors.beside.value) : alone;
}

/**
 * A tool's error with what another pair of hands adds.
 *
 * Unit:    mm
 * Valid:   `sameReader`: read by the person who first read this line
 * Checked: tests/reference/reading-error.test.ts
 * @example readingError('ruler', 20, false) // → 2.5
 */
export function readingError(tool: Tool | undefined, readingMm: number, sameReader: boolean): number {
  const alone = toolError(tool, readingMm);
  return sameReader ? alone : Math.hypot(alone, errors.otherReader.value);
}
