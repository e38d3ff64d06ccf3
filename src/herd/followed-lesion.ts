import { type CalendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import type { Found } from '../record/found.js';
import type { Lesion } from '../record/lesion.js';
import { isLeftDown } from '../record/lifting.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import type { LesionCode } from '../record/words.js';

/** One look at a lesion on a lifted foot. */
export interface LiftedLook {
  readonly date: CalendarDay;
  readonly found: Found;
}

/** A lesion that was seen on a lifted foot and was not healed then, with all such looks, oldest first. */
export interface FollowedLesion {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
  readonly name: string;
  readonly lesion: Lesion;
  /** What it went by at the last visit up to the day asked about. */
  readonly code: LesionCode;
  readonly looks: readonly LiftedLook[];
  /** First seen not healed. */
  readonly firstSeen: CalendarDay;
}

/**
 * The lesions of some farms as they were followed up to a day, in the order of farms, animals and declarations.
 *
 * Only lifted feet count: word from the farm that a lesion is healed is no look at it. A lesion first seen healed
 * was never followed and is left out.
 *
 * Checked: tests/herd/time-to-healed.test.ts
 */
export function followedLesions(farms: readonly FarmRecord[], today: CalendarDay): FollowedLesion[] {
  return farms.flatMap((farm) =>
    farm.cases.flatMap((record) =>
      Object.entries(record.animal.lesions).flatMap(([name, lesion]) => {
        const looks = liftedLooks(record, name, lesion, today);
        const first = looks[0];
        if (!first || isHealed(first.found)) return [];
        const { visits } = record.animal;
        const upTo = visits.findLastIndex(({ date }) => date <= today);
        const code = codeOn(name, lesion, visits, upTo);
        return [{ farm, record, name, lesion, code, looks, firstSeen: first.date }];
      }),
    ),
  );
}

function liftedLooks(record: CaseRecord, name: string, lesion: Lesion, today: CalendarDay): LiftedLook[] {
  return record.animal.visits.flatMap((visit) => {
    const found = visit.found?.[name];
    if (!found || visit.date > today || isLeftDown(visit, lesion.foot, found)) return [];
    return (found.state ?? found.stage ?? found.joined) ? [{ date: visit.date, found }] : [];
  });
}

/** Healed as written; of digital dermatitis M0. @example isHealed({ stage: 'M0' }) // → true */
export function isHealed({ state, stage }: Found): boolean {
  return state === 'healed' || stage === 'M0';
}
