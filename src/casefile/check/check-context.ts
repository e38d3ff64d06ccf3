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

/** What a check of one farm may know beside the farm itself. */
export interface FarmCheckContext {
  readonly today: CalendarDay;
  readonly farmSlug: string;
  /** What is under a name inside the farm's folder, as written in the record. */
  readonly picture: (path: string) => PictureLook;
}

/** What a check of one animal may know beside the animal itself. */
export interface AnimalCheckContext extends FarmCheckContext {
  /** Undefined where the farm's own file has an error: then nothing can be said about its scales. */
  readonly farm: Farm | undefined;
  /** The file's name without `.md`. */
  readonly animalSlug: string;
}

/** What a check finds, one after another. */
export type Findings = Generator<Finding, void>;

interface Said {
  /** Which of several ways it comes about. */
  readonly way?: string | undefined;
  readonly at?: Finding['at'];
  /** The id whose words it takes, where several share them. */
  readonly wordsOf?: string;
}

const maker =
  (severity: Severity) =>
  (
    id: string,
    path: RecordPath,
    values?: Values,
    { way, at = 'value', wordsOf = id }: Said = {},
  ): Finding => {
    const { message, mend } = messageOf(`record/${wordsOf}`, values, way);
    return { id: `record/${id}`, severity, path, at, message, mend };
  };

/** The file is refused. */
export const refuse = maker('error');

/** Something looks wrong and may be right. */
export const warn = maker('warning');

/** Worth knowing, nothing wrong. */
export const remark = maker('note');

/** What is declared under a name; never what any object has, such as `constructor`. */
export function declaredAs<T>(names: Readonly<Record<string, T>> | undefined, name: string): T | undefined {
  return names && Object.hasOwn(names, name) ? names[name] : undefined;
}

type ListKey = 'blocks' | 'wraps' | 'products' | 'photos' | 'trimmed' | 'cut-back';

/** Every entry of a list of the visits, with its visit and where it is. */
export function* entriesOf<K extends ListKey>(visits: readonly Visit[], key: K) {
  for (const [i, visit] of visits.entries())
    for (const [at, entry] of (visit[key] ?? []).entries())
      yield { entry: entry as NonNullable<Visit[K]>[number], visit, i, path: ['visits', i, key, at] };
}

/** One entry of `found`: one lesion or mark at one visit. */
interface Look<Declared> {
  readonly name: string;
  readonly declared: Declared;
  readonly visit: Visit;
  /** Position in `animal.visits`. */
  readonly visitAt: number;
  readonly found: Found;
  /** Where the entry is in the file. */
  readonly path: RecordPath;
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
  const { lesions, visits } = animal;
  const all = looks(visits, lesions).map((look) => ({
    ...look,
    code: codeOn(look.name, look.declared, visits, look.visitAt),
  }));
  gathered.set(animal, all);
  return all;
}

/** Every look at a declared mark, in the order of the visits. */
export function markLooks({ visits, marks }: Animal): Look<Mark>[] {
  return marks ? looks(visits, marks) : [];
}

function looks<Declared>(
  visits: readonly Visit[],
  names: Readonly<Record<string, Declared>>,
): Look<Declared>[] {
  return visits.flatMap((visit, visitAt) =>
    Object.entries(visit.found ?? {}).flatMap(([name, found]) => {
      const declared = declaredAs(names, name);
      const path = ['visits', visitAt, 'found', name];
      return declared ? [{ name, declared, visit, visitAt, found, path }] : [];
    }),
  );
}

/**
 * For each thing those that are before it and share a key with it, in order, each once.
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
export function* checkIntervalsInOrder(intervals: Intervals = {}): Findings {
  for (const name of intervalNames) {
    const overdueName = intervalNames.find((other) => other === `${name}-overdue`);
    const [due, overdue] = [intervals[name], overdueName && intervals[overdueName]];
    if (overdueName && due !== undefined && overdue !== undefined && overdue < due)
      yield refuse('overdue-before-due', ['intervals', overdueName], { overdueName, overdue, name, due });
  }
}
