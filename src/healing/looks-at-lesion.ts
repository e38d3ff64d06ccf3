import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found, Visit } from '../record/visit.js';
import type { DdStage, Claw, Foot, Sign } from '../record/words.js';
import { codeOn } from '../record/code-of-lesion.js';
import { familyOf, hasTrait } from '../reference/lesions.js';
import { healingNumbers } from '../reference/numbers.js';

/**
 * Works a thing out once for an animal and a day and hands the same answer out again.
 *
 * Why: standing, notices, due items and gaps all ask for the same blocks and the same looks, and a practice has
 * thousands of cases. A record is never changed after it was read, so an answer stays true as long as the record.
 */
export function onceForAnimal<T>(
  work: (animal: Animal, today: CalendarDay) => T,
): (animal: Animal, today: CalendarDay) => T {
  const known = new WeakMap<Animal, Map<CalendarDay, T>>();
  return (animal, today) => {
    const days = known.get(animal) ?? new Map<CalendarDay, T>();
    known.set(animal, days);
    const answer = days.get(today) ?? work(animal, today);
    days.set(today, answer);
    return answer;
  };
}

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

const looksByLesion = onceForAnimal((animal, today): ReadonlyMap<string, readonly Look[]> => {
  const looks = new Map<string, Look[]>();
  for (const [visit, { date, by, kind, found: all = {}, feet }] of animal.visits.entries())
    for (const [lesion, found] of date > today || kind === 'missed' ? [] : Object.entries(all)) {
      const foot = animal.lesions[lesion]?.foot;
      if (!foot || found.lifted === false || feet?.[foot]?.lifted === false) continue;
      const before = looks.get(lesion) ?? [];
      before.push({ visit, date, by, kind, found });
      looks.set(lesion, before);
    }
  return looks;
});

const active: ReadonlySet<DdStage> = new Set(['M1', 'M2', 'M4.1']);

/** M1, M2 and M4.1 are active; M3 and M4 quiet; M0 healed. @example isActive('M4') // → false */
export function isActive(stage: DdStage): boolean {
  return active.has(stage);
}

/** An open hole in horn at its last look. */
interface OpenHornLesion {
  readonly name: string;
  readonly foot: Foot;
  readonly claw: Claw | undefined;
  /** First look of the present open run, and its visit. */
  readonly since: CalendarDay;
  readonly visit: number;
}

const hornFamilies: ReadonlySet<string> = new Set(['wall', 'ulcer', 'double sole', 'toe necrosis']);

/** The horn lesions whose last look up to a day found them open; a claw with one should not carry a block. */
const openHornLesionsOn = onceForAnimal((animal, today): readonly OpenHornLesion[] => {
  const last = animal.visits.length - 1;
  return Object.entries(animal.lesions).flatMap(([name, lesion]) => {
    if (!hornFamilies.has(familyOf(codeOn(name, lesion, animal.visits, last)))) return [];
    const looks = looksAt(animal, name, today).filter(({ found }) => found.state || found.joined);
    const first = looks[looks.findLastIndex(({ found }) => found.state !== 'open' || found.joined) + 1];
    return first ? { name, foot: lesion.foot, claw: lesion.claw, since: first.date, visit: first.visit } : [];
  });
});

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
    ({ name }) => !hasTrait(codeOf(name), 'fissure') || lame || isDeep(name),
  );
  const present = Object.entries(animal.lesions).flatMap(([name, { foot, claw }]): OpenHornLesion[] => {
    if (!hasTrait(codeOf(name), 'thin or bruised')) return [];
    const looks = looksAt(animal, name, today);
    const first = looks[looks.findLastIndex(({ found }) => found.state !== 'present') + 1];
    return first ? [{ name, foot, claw, since: first.date, visit: first.visit }] : [];
  });
  return [...open, ...present];
}

/**
 * The smallest change that two readings can distinguish, from the SD of each.
 *
 * Unit:    mm
 * Source:  shared/healing.json `tellApart`
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function smallestDetectableChangeMm(sigmaMm: number, otherSigmaMm: number): number {
  return healingNumbers.tellApart.value * Math.hypot(sigmaMm, otherSigmaMm);
}
