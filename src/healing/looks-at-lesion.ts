import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found } from '../record/found.js';
import type { Visit } from '../record/visit.js';

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
  const foot = animal.lesions[lesion]?.foot;
  return [...animal.visits.entries()].flatMap(([visit, { date, by, kind, found, feet }]) => {
    const finding = found?.[lesion];
    if (!finding || date > today || kind === 'missed') return [];
    if (finding.lifted === false || (foot && feet?.[foot]?.lifted === false)) return [];
    return [{ visit, date, by, kind, found: finding }];
  });
}
