import { hasTrait, isWallGap } from '../reference/lesions.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { NoForecast, LesionGrowth, UnplacedLesion } from './animal-growth.js';
import type { LineCourse } from './follow-lines.js';
import { type GapHistory, type HeldNow, gapHistory } from './gap-history.js';
import { isMeasured } from './growth-line.js';
import type { LineFollowed } from './held-slowly.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';

/**
 * Why no date can be given for a gap: the first reason that holds, in this order; undefined where one can.
 *
 * Checked: tests/growth/no-forecast.test.ts
 */
export function whyNoForecast(
  history: GapHistory,
  line: LineFollowed,
  heldNow: HeldNow | undefined,
  underNotice: boolean,
): NoForecast | undefined {
  const latest = line.judged.at(-1);
  const withoutLengths = whyWhateverItsLengths(history, underNotice);
  if (withoutLengths !== undefined) return withoutLengths;
  if (latest === undefined) return 'no-length';
  if (history.ranUpUnmeasured) return 'ran-up-unmeasured';
  if (latest.kind === 'not-reached') return 'not-reached';
  if (heldNow !== undefined) return 'held';
  if (line.pending !== undefined) return 'doubtful';
  if (hasTrait(history.code, 'from the coronet') && !hasComeAway(line)) return 'starts-at-coronet';
  return isByEyeAlone(line) ? 'by-eye' : undefined;
}

/** The reasons that hold whatever was measured. */
function whyWhateverItsLengths(history: GapHistory, underNotice: boolean): NoForecast | undefined {
  if (history.state === 'healed' || history.state === 'lasting') return history.state;
  if (underNotice) return 'same-day-notice';
  if (history.joinedTo !== undefined) return 'joined';
  if (history.infected) return 'infected';
  return history.boneOrNecrosis ? 'bone-or-necrosis' : undefined;
}

/** Nothing it has learned from was read by more than eye. Valid: at least one reading used */
export function isByEyeAlone({ used }: Pick<LineCourse, 'used'>): boolean {
  return [...used].every(({ tool }) => tool === 'eye');
}

/** A length of a fissure that begins at the coronet says little until horn has come away from it. */
function hasComeAway({ judged, used }: LineFollowed): boolean {
  const lengths = judged.flatMap(({ reading }) =>
    isMeasured(reading) && used.has(reading) ? reading.mm : [],
  );
  const sinceCoronet = lengths.length - 1 - lengths.lastIndexOf(0);
  return sinceCoronet >= growthNumbers.tests.fissureReadings.value;
}

/** Where a gap is, and the name it goes by. */
export type GapPlace = Pick<LesionGrowth, 'lesion' | 'foot' | 'claw' | 'line'>;

/**
 * Finds the wall gaps of an animal, in the order declared: those with a line to be measured on, and those without.
 *
 * Valid:   declared under a wall code, or renamed to one by a finding up to the day
 * Checked: tests/growth/wall-gaps.test.ts
 */
export function wallGaps(
  animal: Animal,
  upTo: CalendarDay,
  underNotice?: ReadonlySet<string>,
): { readonly placed: readonly GapPlace[]; readonly unplaced: readonly UnplacedLesion[] } {
  const placed: GapPlace[] = [];
  const unplaced: UnplacedLesion[] = [];
  for (const [lesion, { code: declared, foot, claw, line }] of Object.entries(animal.lesions)) {
    const history = gapHistory(animal, lesion, upTo);
    if (!isWallGap(declared) && !isWallGap(history.code)) continue;
    if (claw !== undefined && line !== undefined) placed.push({ lesion, foot, claw, line });
    else {
      const why = whyWhateverItsLengths(history, underNotice?.has(lesion) === true) ?? 'no-length';
      unplaced.push({ lesion, foot, code: history.code, why });
    }
  }
  return { placed, unplaced };
}
