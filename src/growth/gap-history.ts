import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found } from '../record/visit.js';
import type { LesionCode, LesionState } from '../record/words.js';
import { familyOf } from '../reference/lesions.js';
import { given } from '../record/given.js';
import type { JudgedReading } from './animal-growth.js';
import type { Judged } from './follow-lines.js';
import type { LineFollowed } from './held-slowly.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { isMeasured } from './growth-line.js';

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
 * A gap that stands held at its latest reading: since when, how many SDs short of growth, and whether that is
 * enough to call it held. Where it is not, it only may be: there is no date, but nothing is said that the slowest
 * of sound cows would have said of her too.
 */
export interface HeldNow {
  readonly since: CalendarDay;
  readonly z: number;
  readonly sure: boolean;
}

const { heldCalledBelow } = growthNumbers.tests;

/**
 * Whether a gap stands held now: over a stretch that ends at its latest reading, or by that reading
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
