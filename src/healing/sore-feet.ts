import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import { feet, type Foot } from '../record/words.js';
import { familyOf } from '../reference/lesions.js';
import { isActive, looksAt, onceForAnimal } from './looks-at-lesion.js';

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
      return last.state === 'open' || (code === 'IP' && last.state === 'present') || last.infected === true;
    }),
  ),
);
