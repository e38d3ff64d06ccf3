import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found } from '../record/found.js';
import type { LesionCode, LesionState } from '../record/words.js';
import { given } from '../record/given.js';

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
  if ((code ?? before.code) === 'TN') return true;
  if (signs !== undefined) return signs.includes('bone') || signs.includes('necrosis');
  return state === 'covered' ? false : before.boneOrNecrosis;
}
