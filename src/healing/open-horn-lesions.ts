import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import type { Claw, Foot, LesionCode, Sign } from '../record/words.js';
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

const fissures: ReadonlySet<LesionCode> = new Set(['HFA', 'HFH', 'HFV']);
const thinOrBruised: ReadonlySet<LesionCode> = new Set(['TS', 'SH', 'SHC', 'SHD']);
const deep: readonly Sign[] = ['bleeding', 'pus', 'exposed corium', 'proud flesh', 'necrosis', 'bone'];

/**
 * The lesions up to a day that keep a claw from carrying a block: an open hole in horn, a thin or double sole, bruising. A
 * fissure counts where it is deep or she is lame: a claw whose only trouble is old or shallow can carry one.
 *
 * Checked: tests/healing/carrying-claw.test.ts
 */
export function cannotCarryOn(animal: Animal, today: CalendarDay, lame = false): readonly OpenHornLesion[] {
  const codeOf = (name: string) =>
    codeOn(name, animal.lesions[name]!, animal.visits, animal.visits.length - 1);
  const isDeep = (name: string) =>
    looksAt(animal, name, today)
      .at(-1)
      ?.found.signs?.some((sign) => deep.includes(sign)) === true;
  const open = openHornLesionsOn(animal, today).filter(
    ({ name }) => !fissures.has(codeOf(name)) || lame || isDeep(name),
  );
  const present = Object.entries(animal.lesions).flatMap(([name, { foot, claw }]): OpenHornLesion[] => {
    if (!thinOrBruised.has(codeOf(name))) return [];
    const looks = looksAt(animal, name, today);
    const first = looks[looks.findLastIndex(({ found }) => found.state !== 'present') + 1];
    return first ? [{ name, foot, claw, since: first.date, visit: first.visit }] : [];
  });
  return [...open, ...present];
}
