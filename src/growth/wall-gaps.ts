import { hasTrait, isWallGap, familyOf } from '../reference/lesions.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { NoForecast, LesionGrowth, UnplacedLesion, JudgedReading } from './animal-growth.js';
import type { LineCourse, Judged, LineFollowed } from './follow-lines.js';
import { isMeasured } from './growth-line.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found } from '../record/visit.js';
import type { LesionCode, LesionState } from '../record/words.js';
import { given } from '../record/given.js';

/**
 * Why no date can be given for a gap: the first reason that holds, in this order; undefined where one can.
 *
 * Checked: tests/growth/no-forecast.test.ts
 */
export function whyNoForecast(
  history: GapHistory,
  line: LineFollowed,
  held: HeldNow | undefined,
  underNotice: boolean,
): NoForecast | undefined {
  const latest = line.judged.at(-1);
  const withoutLengths = whyWhateverItsLengths(history, underNotice);
  if (withoutLengths !== undefined) return withoutLengths;
  if (latest === undefined) return 'no-length';
  if (history.ranUpUnmeasured) return 'ran-up-unmeasured';
  if (latest.kind === 'not-reached') return 'not-reached';
  if (held !== undefined) return 'held';
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

/** What the visits up to a day say of a wall gap, beside its lengths. */
export interface GapHistory {
  /** Its code by then: a finding may have renamed it. */
  readonly code: LesionCode;
  readonly state?: LesionState;
  readonly joinedTo?: string;
  readonly infected: boolean;
  /** Bone or dead tissue at the last finding whose signs were written. */
  readonly boneOrNecrosis: boolean;
  /** Said to have run up, without a length, and not measured since. */
  readonly ranUpUnmeasured: boolean;
}

/**
 * Reads what is said of a gap, visit by visit. What a later visit leaves out still holds.
 *
 * Valid:   `infected: false` ends an infection; signs written anew, or the gap covered, end bone and necrosis; renamed to toe necrosis it stays so
 * Checked: tests/growth/no-forecast.test.ts
 */
export function gapHistory(animal: Animal, lesion: string, upTo: CalendarDay): GapHistory {
  const code = animal.lesions[lesion]?.code;
  if (code === undefined) throw new RangeError(`no lesion ${lesion} is declared`);
  let history: GapHistory = { code, infected: false, boneOrNecrosis: false, ranUpUnmeasured: false };
  for (const visit of animal.visits) {
    const found = visit.found?.[lesion];
    if (found !== undefined && visit.date <= upTo) history = { ...history, ...news(found, history) };
  }
  return history;
}

function news(found: Found, before: GapHistory): Partial<GapHistory> {
  return {
    ...given({ code: found.code, state: found.state, joinedTo: found.joined }),
    infected: found.infected ?? before.infected,
    boneOrNecrosis: boneOrNecrosis(found, before),
    ranUpUnmeasured: found.top === undefined && (found['ran-up'] ?? before.ranUpUnmeasured),
  };
}

function boneOrNecrosis({ code, signs, state }: Found, before: GapHistory): boolean {
  if (familyOf(code ?? before.code) === 'toe necrosis') return true;
  if (signs !== undefined) return signs.includes('bone') || signs.includes('necrosis');
  return state === 'covered' ? false : before.boneOrNecrosis;
}

/** The readings of a line as they are shown. */
export function judgedReadings({ shown, used }: LineFollowed): JudgedReading[] {
  return shown.map((one) => judgedReading(one, !used.has(one.reading)));
}

function judgedReading({ reading, kind, expected, ranUp }: Judged, unused: boolean): JudgedReading {
  const { date, visit, by, mm, topFound, tool, sigmaMm, asked } = reading;
  const isInDoubt = asked !== undefined && kind === 'ran-up';
  return {
    date,
    visit,
    by,
    ...(mm === undefined ? {} : { topMm: mm, sigmaMm }),
    ...given({ topFound, tool }),
    ...(isInDoubt ? { kind: 'doubtful', takenAs: kind } : { kind }),
    ...given({ asked }),
    ...(expected === undefined ? {} : { expectedMm: expected.mm, sdMm: expected.sdMm, z: expected.z }),
    ...(ranUp === undefined || isInDoubt ? {} : { ranUpMm: ranUp.mm }),
    ...(ranUp?.months === undefined || isInDoubt ? {} : { lostMonths: ranUp.months }),
    unused,
  };
}

/**
 * A gap that is held at its latest reading: since when, how many SDs short of growth, and whether that is
 * enough to call it held. Where it is not, it only may be: there is no date, but nothing is said that the slowest
 * of sound cows would have said of her too.
 */
export type HeldNow = Readonly<{ since: CalendarDay; z: number; sure: boolean }>;

const { heldCalledBelow } = growthNumbers.tests;

/**
 * Whether a gap is held now: over a stretch that ends at its latest reading, or by that reading
 * alone, and then since the reading before it.
 *
 * Checked: tests/growth/growth-cases.test.ts
 */
export function heldNow({ judged, held }: LineFollowed): HeldNow | undefined {
  const measured = judged.filter(({ reading }) => isMeasured(reading));
  const latest = measured.at(-1);
  if (latest === undefined) return undefined;
  const stretch = held.find(({ at }) => at === latest.reading);
  if (stretch !== undefined) {
    const sure = latest.kind === 'held' || stretch.z < heldCalledBelow.value;
    return { since: stretch.since.date, z: stretch.z, sure };
  }
  const before = measured.at(-2);
  if (latest.kind !== 'held' || latest.expected === undefined || before === undefined) return undefined;
  return { since: before.reading.date, z: latest.expected.z, sure: true };
}
