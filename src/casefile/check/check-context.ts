import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm, Intervals } from '../../record/farm.js';
import type { PictureLook } from '../look-at-picture.js';
import { messageOf } from '../../problem/message.js';
import type { Finding, RecordPath, Severity } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { Values } from '../../reference/words.js';
import { codeOn } from '../../record/code-of-lesion.js';
import type { Found, Visit } from '../../record/visit.js';
import type { Lesion, Mark } from '../../record/lesion.js';
import { type LesionCode, intervalNames } from '../../record/words.js';

/** What a check of `business.md` may know beside the record. */
export interface BusinessCheckContext {
  readonly today: CalendarDay;
}

/** What a check of one farm may know beside the farm itself. */
export interface FarmCheckContext {
  readonly today: CalendarDay;
  readonly farmSlug: string;
  /** What stands under a name inside the farm's folder, as written in the record. */
  readonly picture: (path: string) => PictureLook;
}

/** What a check of one animal may know beside the animal itself. */
export interface AnimalCheckContext extends FarmCheckContext {
  /** Undefined where the farm's own file has an error: then nothing can be said about its scales. */
  readonly farm: Farm | undefined;
  /** The file's name without `.md`. */
  readonly animalSlug: string;
}

interface Said {
  /** Which of several ways it comes about. */
  readonly way?: string | undefined;
  readonly at?: Finding['at'];
  /** The id whose words it takes, where several share them. */
  readonly wordsOf?: string;
}

type Maker = (id: string, path: RecordPath, values?: Values, said?: Said) => Finding;

const maker =
  (severity: Severity): Maker =>
  (id, path, values, { way, at = 'value', wordsOf = id } = {}) => {
    const { message, mend } = messageOf(`record/${wordsOf}`, values, way);
    return { id: `record/${id}`, severity, path, at, message, mend };
  };

/** The file is refused. */
export const refuse: Maker = maker('error');

/** Something looks wrong and may be right. */
export const warn: Maker = maker('warning');

/** Worth knowing, nothing wrong. */
export const remark: Maker = maker('note');

/** One entry of `found`: one lesion or mark at one visit. */
interface Look<Declared> {
  readonly name: string;
  readonly declared: Declared;
  readonly visit: Visit;
  /** Position in `animal.visits`. */
  readonly visitAt: number;
  readonly found: Found;
  /** Where the entry stands in the file. */
  readonly path: readonly (string | number)[];
}

export interface LesionLook extends Look<Lesion> {
  /** The code it goes by at this visit. */
  readonly code: LesionCode;
}

/** Many checks ask for the same looks, so they are gathered once an animal. */
const gathered = new WeakMap<Animal, readonly LesionLook[]>();

/** Every look at a declared lesion, in the order of the visits. */
export function lesionLooks(animal: Animal): readonly LesionLook[] {
  const known = gathered.get(animal);
  if (known) return known;
  const all = looks(animal, animal.lesions, ({ name, declared, visitAt }) => ({
    code: codeOn(name, declared, animal.visits, visitAt),
  }));
  gathered.set(animal, all);
  return all;
}

/** Every look at a declared mark, in the order of the visits. */
export function markLooks(animal: Animal): Look<Mark>[] {
  return animal.marks ? looks(animal, animal.marks, () => ({})) : [];
}

function looks<Declared, More>(
  animal: Animal,
  declaredUnder: Readonly<Record<string, Declared>>,
  more: (look: Look<Declared>) => More,
): (Look<Declared> & More)[] {
  const all: (Look<Declared> & More)[] = [];
  for (const [visitAt, visit] of animal.visits.entries()) {
    for (const [name, found] of Object.entries(visit.found ?? {})) {
      const declared = Object.hasOwn(declaredUnder, name) ? declaredUnder[name] : undefined;
      if (!declared) continue;
      const look = { name, declared, visit, visitAt, found, path: ['visits', visitAt, 'found', name] };
      all.push(Object.assign(look, more(look)));
    }
  }
  return all;
}

/**
 * For each thing those that stand before it and share a key with it, in order, each once.
 *
 * Looked up by key, so that a farm with thousands of animals is not compared pair by pair.
 *
 * @example earlierWithTheSame(['ab', 'c', 'b'], (word) => [...word]) // → [[], [], ['ab']]
 */
export function earlierWithTheSame<T>(things: readonly T[], keysOf: (thing: T) => readonly string[]): T[][] {
  const placesOf = new Map<string, number[]>();
  return things.map((thing, place) => {
    const earlier = new Set<number>();
    for (const key of new Set(keysOf(thing))) {
      const places = placesOf.get(key) ?? [];
      for (const other of places) earlier.add(other);
      places.push(place);
      placesOf.set(key, places);
    }
    return [...earlier].toSorted((a, b) => a - b).map((other) => things[other]!);
  });
}

/** Nothing is overdue before it is due. */
export function checkIntervalsInOrder(intervals: Intervals = {}): Finding[] {
  return intervalNames.flatMap((name) => {
    const overdueName = intervalNames.find((other) => other === `${name}-overdue`);
    const due = intervals[name];
    const overdue = overdueName && intervals[overdueName];
    if (overdueName === undefined || due === undefined || overdue === undefined || overdue >= due) return [];
    return [refuse('overdue-before-due', ['intervals', overdueName], { overdueName, overdue, name, due })];
  });
}
