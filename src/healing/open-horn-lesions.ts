import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import type { Claw, Foot } from '../record/words.js';
import { familyOf } from '../reference/lesions.js';
import { looksAt } from './looks-at-lesion.js';
import { onceForAnimal } from './once-for-animal.js';

/** An open hole in horn at its last look. */
export interface OpenHornLesion {
  readonly name: string;
  readonly foot: Foot;
  readonly claw: Claw | undefined;
  /** First look of the present open run, and its visit. */
  readonly since: CalendarDay;
  readonly visit: number;
}

const hornFamilies: ReadonlySet<string> = new Set(['wall', 'ulcer', 'double sole', 'toe necrosis']);

/** The horn lesions whose last look up to a day found them open; a claw with one should not carry a block. */
export const openHornLesionsOn = onceForAnimal(
  (animal: Animal, today: CalendarDay): readonly OpenHornLesion[] => {
    const last = animal.visits.length - 1;
    return Object.entries(animal.lesions).flatMap(([name, lesion]) => {
      if (!hornFamilies.has(familyOf(codeOn(name, lesion, animal.visits, last)))) return [];
      const looks = looksAt(animal, name, today).filter(({ found }) => found.state || found.joined);
      const run = looks.slice(looks.findLastIndex(({ found }) => found.state !== 'open' || found.joined) + 1);
      const first = run[0];
      return first
        ? [{ name, foot: lesion.foot, claw: lesion.claw, since: first.date, visit: first.visit }]
        : [];
    });
  },
);
