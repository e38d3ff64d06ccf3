import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { lesionCodes, type LesionCode } from '../record/words.js';
import { followedLesions, isHealed, type FollowedLesion } from './followed-lesion.js';
import { animalNames } from '../record/same-animal.js';
import { timeToEvent, type CaseTime, type TimeToEvent } from './time-to-event.js';

export interface HealingOfKind extends TimeToEvent {
  readonly code: LesionCode;
  /** Found to re-form from the coronet: never healed, and in none of the other numbers. */
  readonly lasting: number;
}

/**
 * How long lesions took from first seen to seen healed, by kind.
 *
 * A lesion still open stays in up to its last lifted look, one that ran into another up to the look that found it so. A lasting
 * fault cannot heal and is counted apart. A lesion that broke down again is a case of its own. For digital dermatitis the first
 * normal skin (M0) counts, and what comes after is a return.
 *
 * Shape:   farms, day → one entry for each kind that was followed, in the order of the codes
 * Unit:    days
 * Checked: tests/herd/time-to-healed.test.ts
 */
export function timeToHealed(farms: readonly FarmRecord[], today: CalendarDay): HealingOfKind[] {
  const followed = followedLesions(farms, today);
  const animalOf = animalNames(farms);
  return lesionCodes.flatMap((code) => {
    const ofKind = followed.filter((one) => one.code === code);
    if (ofKind.length === 0) return [];
    const healing = ofKind.filter((one) => !isLasting(one));
    const lasting = ofKind.length - healing.length;
    return [{ code, lasting, ...timeToEvent(healing.map(healingTime), animalOf) }];
  });
}

function isLasting({ looks }: FollowedLesion): boolean {
  return looks.some(({ found }) => found.state === 'lasting');
}

/** (last seen not healed, first seen healed], in days since first seen. */
function healingTime({ farm, record, name, looks, firstSeen }: FollowedLesion): CaseTime {
  const joined = looks.findIndex(({ found }) => found.joined !== undefined);
  const own = joined < 0 ? looks : looks.slice(0, joined + 1);
  const healed = own.findIndex(({ found }) => isHealed(found));
  const openLook = healed < 0 ? own.at(-1) : own[healed - 1];
  const healedLook = own[healed];
  return {
    farm: farm.slug,
    slug: record.slug,
    animal: record.animal.animal,
    lesion: name,
    from: firstSeen,
    days: {
      after: daysBetween(firstSeen, openLook?.date ?? firstSeen),
      by: healedLook ? daysBetween(firstSeen, healedLook.date) : Infinity,
    },
  };
}
