import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Foot } from '../record/words.js';
import { footSeen } from './foot-seen.js';
import { soreFeet } from './sore-feet.js';

const pair: Readonly<Record<Foot, Foot>> = { LF: 'RF', RF: 'LF', LH: 'RH', RH: 'LH' };

/** The other foot of the pair. @example otherFoot('LH') // → 'RH' */
export function otherFoot(foot: Foot): Foot {
  return pair[foot];
}

/**
 * The first foot that is the pair of a sore one and was not seen at the last lifted visit: long-lame cows are
 * often lame on it too.
 *
 * Checked: tests/healing/gait-standing.test.ts
 */
export function otherFootUnseen(animal: Animal, today: CalendarDay): Foot | undefined {
  const lifted = animal.visits.findLast((visit) => visit.date <= today && isLiftingVisit(visit));
  const sore = soreFeet(animal, today);
  if (!lifted) return undefined;
  return sore.map(otherFoot).find((foot) => !sore.includes(foot) && !footSeen(animal, lifted, foot));
}
