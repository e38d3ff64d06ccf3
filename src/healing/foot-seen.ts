import type { Animal } from '../record/animal.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Visit } from '../record/visit.js';
import { type Foot, feet } from '../record/words.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import { familyOf, hasTrait } from '../reference/lesions.js';
import { isActive, looksAt, onceForAnimal } from './looks-at-lesion.js';

/** The foot was lifted and looked at: said so, trimmed, or a lesion on it found. */
export function footSeen(animal: Animal, visit: Visit, foot: Foot): boolean {
  const said = visit.feet?.[foot];
  if (!isLiftingVisit(visit) || said?.lifted === false) return false;
  if (said?.lifted === true || visit.trimmed?.includes(foot)) return true;
  return Object.entries(visit.found ?? {}).some(
    ([name, found]) => found.lifted !== false && animal.lesions[name]?.foot === foot,
  );
}

/**
 * Feet with a lesion that hurts, at its last look: an open hole in horn, active dermatitis, foul, or infection.
 *
 * A wall gap that is open counts though it may no longer hurt; a claw out of shape does not.
 */
export const soreFeet = onceForAnimal((animal: Animal, today: CalendarDay): readonly Foot[] =>
  feet.filter((foot) =>
    Object.entries(animal.lesions).some(([name, lesion]) => {
      if (lesion.foot !== foot) return false;
      const code = codeOn(name, lesion, animal.visits, animal.visits.length - 1);
      const looks = looksAt(animal, name, today);
      const last = looks.findLast(({ found }) => found.state ?? found.stage)?.found;
      if (!last || last.state === 'healed' || last.joined) return false;
      if (familyOf(code) === 'dermatitis') return last.stage !== undefined && isActive(last.stage);
      const isFoul = hasTrait(code, 'foul') && last.state === 'present';
      return last.state === 'open' || isFoul || last.infected === true;
    }),
  ),
);

/** The other foot of the pair. */
const pair: Readonly<Record<Foot, Foot>> = { LF: 'RF', RF: 'LF', LH: 'RH', RH: 'LH' };

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
  return sore
    .map((foot) => pair[foot])
    .find((foot) => !sore.includes(foot) && !footSeen(animal, lifted, foot));
}
