import { readingError } from '../../reference/growth-numbers.js';
import type { GapHistory } from '../../growth/wall-gaps.js';
import type { LineReading, Measured } from '../../growth/growth-line.js';
import type { Animal } from '../../record/animal.js';
import { type CalendarDay, dayNumber } from '../../record/calendar-day.js';
import type { Found, Visit } from '../../record/visit.js';
import { isLeftDown } from '../../record/lifting.js';
import type { LesionState } from '../../record/words.js';
import type { UlcerClosing } from './ulcer-closing.js';
import { given } from '../../record/given.js';

/** A width as it is followed: where one margin is, mm, half the width short of the middle. */
export interface WidthReading extends Measured {
  readonly widthMm: number;
  readonly lengthMm?: number;
}

/** What the visits up to a day say of an ulcer. */
export interface UlcerHistory extends Pick<GapHistory, 'code' | 'state' | 'infected'> {
  readonly joined: boolean;
  /** Pus or bone at the last finding whose signs were written; ended once it has closed. */
  readonly pusOrBone: boolean;
  /** Widths, and between them a reading without a length wherever it was found closed. */
  readonly series: readonly LineReading[];
  readonly closed: UlcerClosing['closed'];
  readonly cameBack: UlcerClosing['cameBack'];
}

/**
 * Reads the course of an ulcer, visit by visit. What a later visit leaves out still holds.
 *
 * Unit:    mm; position and its SD are half of the width and its SD
 * Valid:   found covered or healed, a run is over, whatever width is there; open again it starts anew
 * Checked: tests/healing/closing/closing-of-ulcer.test.ts
 */
export function ulcerHistory(animal: Animal, lesion: string, upTo: CalendarDay): UlcerHistory {
  const declared = animal.lesions[lesion];
  if (declared === undefined) throw new RangeError(`no lesion ${lesion} is declared`);
  let { code } = declared;
  let state: LesionState | undefined;
  let joined = false;
  let infected = false;
  let pusOrBone = false;
  let lastOpen: CalendarDay | undefined;
  let firstReader: string | undefined;
  const series: LineReading[] = [];
  const closed: { after?: CalendarDay; by: CalendarDay }[] = [];
  const cameBack: CalendarDay[] = [];
  for (const [index, visit] of animal.visits.entries()) {
    const found = visit.found?.[lesion];
    if (found === undefined || visit.date > upTo || found.lifted === false) continue;
    code = found.code ?? code;
    joined ||= found.joined !== undefined;
    infected = found.infected ?? infected;
    const was = state;
    state = found.state ?? state;
    if (found.signs !== undefined) pusOrBone = found.signs.includes('pus') || found.signs.includes('bone');
    if (isClosed(state)) {
      pusOrBone = false;
      if (isClosed(was)) continue;
      closed.push({ ...given({ after: lastOpen }), by: visit.date });
      series.push(closedReading(visit, index));
      continue;
    }
    if (isClosed(was)) cameBack.push(visit.date);
    lastOpen = visit.date;
    if (found.width === undefined || isLeftDown(visit, declared.foot, found)) continue;
    firstReader ??= visit.by;
    series.push(widthReading(visit, index, found, found.width, firstReader));
  }
  return { code, ...given({ state }), joined, infected, pusOrBone, series, closed, cameBack };
}

function isClosed(state: LesionState | undefined): boolean {
  return state === 'covered' || state === 'healed';
}

/** Found closed: a reading without a length. */
function closedReading({ date, by }: Visit, visit: number): LineReading {
  const said = { saidRanUp: false, saidOpenedFurther: false, underLooseHorn: false };
  return { date, day: dayNumber(date), visit, by, ...said, sigmaMm: 0, notReached: true };
}

function widthReading(
  visit: Visit,
  index: number,
  found: Found,
  widthMm: number,
  firstReader: string,
): WidthReading {
  const { tool, length } = found;
  return {
    ...closedReading(visit, index),
    ...given({ tool, lengthMm: length }),
    widthMm,
    mm: -widthMm / 2,
    sigmaMm: readingError(tool, widthMm, visit.by === firstReader) / 2,
    notReached: false,
    saidOpenedFurther: found['opened-further'] ?? false,
  };
}
