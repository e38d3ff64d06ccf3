import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { LesionCode } from '../record/words.js';
import type { LesionGrowth, UnplacedLesion } from './animal-growth.js';
import { gapHistory } from './gap-history.js';
import { whyWhateverItsLengths } from './no-forecast.js';

/** Where a gap is, and the name it goes by. */
export type GapPlace = Pick<LesionGrowth, 'lesion' | 'foot' | 'claw' | 'line'>;

/** The wall gaps of an animal: those with a line to be measured on, and those without. */
export interface WallGaps {
  readonly placed: readonly GapPlace[];
  readonly unplaced: readonly UnplacedLesion[];
}

const wallCodes: ReadonlySet<LesionCode> = new Set<LesionCode>(['WL', 'WLF', 'WLA', 'HFH', 'HFA', 'HFV']);

/** Tells whether a lesion is a gap in wall horn, whose top grows down and out. */
export function isWallCode(code: LesionCode): boolean {
  return wallCodes.has(code);
}

/**
 * Finds the wall gaps of an animal, in the order declared.
 *
 * Valid:   declared under a wall code, or renamed to one by a finding up to the day
 * Checked: tests/growth/wall-gaps.test.ts
 */
export function wallGaps(
  animal: Animal,
  upTo: CalendarDay,
  underNotice: ReadonlySet<string> = new Set(),
): WallGaps {
  const placed: GapPlace[] = [];
  const unplaced: UnplacedLesion[] = [];
  for (const [lesion, { code: declared, foot, claw, line }] of Object.entries(animal.lesions)) {
    const history = gapHistory(animal, lesion, upTo);
    if (!isWallCode(declared) && !isWallCode(history.code)) continue;
    if (claw !== undefined && line !== undefined) placed.push({ lesion, foot, claw, line });
    else {
      const why = whyWhateverItsLengths(history, underNotice.has(lesion)) ?? 'no-length';
      unplaced.push({ lesion, foot, code: history.code, why });
    }
  }
  return { placed, unplaced };
}
