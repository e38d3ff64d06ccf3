import type { Animal } from '../record/animal.js';
import { codeOn } from '../record/code-of-lesion.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { LesionCode } from '../record/words.js';
import { isWallGap, lesionKinds, type Measure, measures } from '../reference/lesions.js';
import type { PlaceSaid } from './place-said.js';

/** What is said of a lesion or mark; it narrows down which may be meant. */
export type LesionSaid = string;

/** The name of a lesion by its code on a day. */
export function codeBefore(animal: Animal, name: string, date: CalendarDay): LesionCode | undefined {
  const lesion = animal.lesions[name];
  if (!lesion) return undefined;
  const before = animal.visits.filter((visit) => visit.date < date);
  return codeOn(name, lesion, before, before.length - 1);
}

/**
 * The lesions and marks of an animal that a place in a note may mean, given what is said there.
 *
 * A wall gap that was healed, or that runs into another, is followed no longer: it gives way where another fits.
 */
export function lesionsThatFit(
  animal: Animal,
  place: Omit<PlaceSaid, 'next'> | undefined,
  date: CalendarDay,
  said?: LesionSaid,
): string[] {
  const marks = Object.entries(animal.marks ?? {}).filter(
    ([, mark]) =>
      !place?.codes &&
      !place?.site &&
      (place?.mark === true || said === 'distance') &&
      (said === undefined || ['distance', 'tool', 'note', 'lifted'].includes(said)) &&
      (!place || on(mark, place)),
  );
  if (place?.mark === true || said === 'distance') return marks.map(([name]) => name);
  const lesions = Object.entries(animal.lesions).filter(([name, lesion]) => {
    const code = codeBefore(animal, name, date) ?? lesion.code;
    return (
      (!place || on(lesion, place)) &&
      (!place?.codes || place.codes.includes(code)) &&
      (!place?.site || lesion.site === place.site) &&
      (said === undefined || carries(code, said))
    );
  });
  const followed = lesions.filter(([name]) => !isDone(animal, name, date));
  return (followed.length > 0 ? followed : lesions).map(([name]) => name);
}

function on(
  one: { readonly foot: string; readonly claw?: string | undefined },
  { feet, claw }: Omit<PlaceSaid, 'next'>,
): boolean {
  return (
    (feet.length === 0 || (feet.length === 1 && feet[0] === one.foot)) &&
    (claw === undefined || claw === one.claw)
  );
}

const onWallGaps = new Set([
  'top-found', 'wall-at', 'wall-lowered', 'wall-tool', 'ran-up', 'opened-further', 'joined',
]); // prettier-ignore

/** Whether a finding may be said of a lesion of this code. */
export function carries(code: LesionCode, said: LesionSaid): boolean {
  const kind = lesionKinds[code];
  if ((measures as readonly string[]).includes(said)) return kind.measures.has(said as Measure);
  if (onWallGaps.has(said)) return isWallGap(code);
  if (said === 'tool') return kind.measures.size > 0;
  if (said === 'infected') return kind.family !== 'dermatitis';
  if (said.startsWith('state ')) return kind.states.has(said.slice(6));
  return true;
}

/** Followed no longer: it runs into another, or is a wall gap that was healed. */
export function isDone(animal: Animal, name: string, date: CalendarDay): boolean {
  const looks = animal.visits
    .filter((visit) => visit.date < date)
    .flatMap(({ found }) => found?.[name] ?? []);
  const code = codeBefore(animal, name, date);
  const last = looks.findLast(({ state }) => state !== undefined)?.state;
  return (
    looks.some(({ joined }) => joined !== undefined) ||
    (code !== undefined && isWallGap(code) && last === 'healed')
  );
}
