import { looksAt } from '../../healing/looks-at-lesion.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { codeOn } from '../../record/code-of-lesion.js';
import type { Foot } from '../../record/words.js';
import { familyOf } from '../../reference/lesions.js';

/** Live tissue that lies bare at the last look. */
export interface Bare {
  readonly foot: Foot;
  readonly lesion?: string;
  readonly since: CalendarDay;
  readonly why: 'corium' | 'ulcer';
}

/**
 * The first lesion with exposed corium or an open ulcer at its last look, if any.
 *
 * A raw patch of digital dermatitis does not count: a bath is made for it, and whether she may use it is the vet's
 * plan for the herd.
 */
export function openUlcerOrCorium(animal: Animal, today: CalendarDay): Bare | undefined {
  for (const [lesion, declared] of Object.entries(animal.lesions)) {
    const looks = looksAt(animal, lesion, today);
    const last = looks.at(-1);
    if (!last || last.found.state === 'healed' || last.found.state === 'covered') continue;
    const corium = last.found.signs?.includes('exposed corium') === true;
    const code = codeOn(lesion, declared, animal.visits, last.visit);
    const ulcer = familyOf(code) === 'ulcer' && last.found.state === 'open';
    if (!corium && !ulcer) continue;
    return { foot: declared.foot, lesion, since: last.date, why: corium ? 'corium' : 'ulcer' };
  }
  return undefined;
}
