import type { LesionCode } from '../record/words.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { NoForecast } from './animal-growth.js';
import type { LineCourse } from './follow-lines.js';
import type { GapHistory, HeldNow } from './gap-history.js';
import { isMeasured } from './growth-line.js';
import type { LineFollowed } from './held-slowly.js';

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
  if (startsAtCoronet(history.code) && !hasComeAway(line)) return 'starts-at-coronet';
  return isByEyeAlone(line) ? 'by-eye' : undefined;
}

/** The reasons that hold whatever was measured. */
export function whyWhateverItsLengths(history: GapHistory, underNotice: boolean): NoForecast | undefined {
  if (history.state === 'healed') return 'healed';
  if (history.state === 'lasting') return 'lasting';
  if (underNotice) return 'same-day-notice';
  if (history.joinedTo !== undefined) return 'joined';
  if (history.infected) return 'infected';
  if (history.boneOrNecrosis) return 'bone-or-necrosis';
  return undefined;
}

/** Nothing it has learned from was read by more than eye. Valid: at least one reading used */
export function isByEyeAlone({ used }: Pick<LineCourse, 'used'>): boolean {
  return [...used].every(({ tool }) => tool === 'eye');
}

/** Axial and vertical fissures begin at the coronet: a length says little until horn has come away from it. */
function startsAtCoronet(code: LesionCode): boolean {
  return code === 'HFA' || code === 'HFV';
}

function hasComeAway({ judged, used }: LineFollowed): boolean {
  const lengths = judged.flatMap(({ reading }) =>
    isMeasured(reading) && used.has(reading) ? reading.mm : [],
  );
  const sinceCoronet = lengths.length - 1 - lengths.lastIndexOf(0);
  return sinceCoronet >= growthNumbers.tests.fissureReadings.value;
}
