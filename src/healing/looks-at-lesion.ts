import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found } from '../record/found.js';
import type { Visit } from '../record/visit.js';
import { onceForAnimal } from './once-for-animal.js';

/** One look at a lesion: the visit, its position, and what was found. */
export interface Look {
  readonly visit: number;
  readonly date: CalendarDay;
  readonly by: string;
  readonly kind: Visit['kind'];
  readonly found: Found;
}

/**
 * The looks at a lesion up to a day, oldest first. A foot or lesion that was not lifted is no look.
 *
 * A report's word on the state (from farm or vet) counts as one: the trimmer chose to write it into the record.
 */
export function looksAt(animal: Animal, lesion: string, today: CalendarDay): readonly Look[] {
  return looksByLesion(animal, today).get(lesion) ?? [];
}

const looksByLesion = onceForAnimal(
  (animal: Animal, today: CalendarDay): ReadonlyMap<string, readonly Look[]> => {
    const looks = new Map<string, Look[]>();
    for (const [visit, { date, by, kind, found, feet }] of animal.visits.entries()) {
      if (date > today || kind === 'missed' || !found) continue;
      for (const [lesion, finding] of Object.entries(found)) {
        const foot = animal.lesions[lesion]?.foot;
        if (!foot || finding.lifted === false || feet?.[foot]?.lifted === false) continue;
        const before = looks.get(lesion);
        const look = { visit, date, by, kind, found: finding };
        if (before) before.push(look);
        else looks.set(lesion, [look]);
      }
    }
    return looks;
  },
);
