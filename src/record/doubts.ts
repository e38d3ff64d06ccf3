import { messageOf } from '../problem/message.js';
import type { Message, RecordPath } from '../problem/problem.js';
import { messageWords } from '../reference/words.js';
import { growthNumbers, readingError } from '../reference/growth-numbers.js';
import type { Animal } from './animal.js';
import { type CalendarDay, daysBetween } from './calendar-day.js';
import type { Found, Visit } from './visit.js';
import type { WallLine } from './words.js';
import { given } from './given.js';

/** What looks like a slip: asked about on every way in, warned of by `check`. `entry/…` only where a visit is entered. */
export const doubtIds = [
  'record/centimetres',
  'record/other-year',
  'entry/other-year',
  'entry/before-last-visit',
  'entry/other-animal',
] as const;

/** One thing in an animal's record that looks like a slip and may be right, asked as in `4.1 mm? 41 would fit.` */
export interface Doubt extends Message {
  readonly path: RecordPath;
  /** What would fit in its place. */
  readonly fits?: number | CalendarDay;
}

/** What a record is looked at with. */
export interface DoubtContext {
  readonly today: CalendarDay;
  /** The visit that has just been entered, by its position: its day and whose readings it holds are looked at too. */
  readonly entered?: number;
  /** The farm's other animals. */
  readonly others?: readonly Animal[];
}

const { doubts: numbers, tests, cow, season, lactation, lines, month } = growthNumbers;

/**
 * What in a record looks like a slip: centimetres typed for millimetres, a day in the wrong year and, of a visit that
 * is just entered, a day before her last visit or a reading that fits another cow.
 *
 * Why this way: each may be right, so nothing is refused and nothing changed; but none is written in silence. A top
 * that is said to have run up or been opened further is not doubted, since somebody has answered already.
 *
 * Shape:   an animal → doubts, lengths first
 * Unit:    mm, days
 * Source:  shared/growth.json `doubts`
 * Checked: tests/record/doubts.test.ts
 */
export function doubtsOf(animal: Animal, { today, entered, others = [] }: DoubtContext): Doubt[] {
  const { 'due-to-calve': due } = animal;
  return [
    ...lengthsOf(animal).doubts,
    ...animal.visits.flatMap((visit, at) => [
      ...daysOfVisit(visit, at),
      ...(at === entered ? [] : dayOfVisit(animal, at)),
    ]),
    ...(due && due > today ? otherYear(['due-to-calve'], due, today, numbers.yearToCalving.value) : []),
    ...(entered === undefined ? [] : doubtsOnEntry(animal, entered, today, others)),
  ];
}

/**
 * What a visit not yet written would bring that looks like a slip; nothing that was doubted before.
 *
 * Shape:   an animal's record, a visit that may be answered in part → doubts, with paths as if it stood at its place by
 *          date; of an earlier visit that it makes doubtful the day is said
 */
export function doubtsOfDraft(animal: Animal, draft: Visit, context: Omit<DoubtContext, 'entered'>): Doubt[] {
  const entered = animal.visits.findLastIndex(({ date }) => date <= draft.date) + 1;
  const visits = animal.visits.toSpliced(entered, 0, draft);
  const before = new Set(doubtsOf(animal, context).map(({ message }) => message));
  return doubtsOf({ ...animal, visits }, { ...context, entered })
    .filter(({ message }) => !before.has(message))
    .map((doubt) => {
      const at = Number(doubt.path[1]);
      if (at === entered) return doubt;
      const { fits: _fits, ...other } = doubt;
      return {
        ...other,
        message: messageWords().say('row.of', { of: visits[at]!.date, says: other.message }),
      };
    });
}

/** What is doubted of a length: the words of the question; undefined where nothing is. */
export function lengthDoubted(
  animal: Animal,
  visit: number,
  name: string,
  key: 'top' | 'wall' | 'distance',
): string | undefined {
  return lengthsOf(animal).doubts.find(({ path }) => path[1] === visit && path[3] === name && path[4] === key)
    ?.message;
}

/** A length from the coronet, and what bears on how far off it may be. */
interface Point extends Pick<Found, 'tool'> {
  readonly mm: number;
  readonly date: CalendarDay;
  readonly by: string;
  readonly at: RecordPath;
}

interface Lengths {
  readonly doubts: readonly Doubt[];
  /** The last length from the coronet of each lesion and mark that is not doubted, and the tops no growth brings. */
  readonly last: ReadonlyMap<string, Point>;
  readonly leaving: readonly { readonly visit: number; readonly name: string; readonly now: Point }[];
}

const known = new WeakMap<Animal, Lengths>();

function lengthsOf(animal: Animal): Lengths {
  const lengths = known.get(animal) ?? lookedAt(animal);
  known.set(animal, lengths);
  return lengths;
}

function lookedAt(animal: Animal): Lengths {
  const doubts: Doubt[] = [];
  const last = new Map<string, Point>();
  const leaving: { visit: number; name: string; now: Point }[] = [];
  const doubt = (path: RecordPath, mm: number) => {
    const fits = times10(mm);
    const way = path.at(-1) === 'top' ? 'top' : undefined;
    doubts.push({ ...messageOf('record/centimetres', { mm, fits }, way), path, fits });
  };
  for (const [visit, { date, by, found = {} }] of animal.visits.entries())
    for (const [name, finding] of Object.entries(found)) {
      const { wall, tool } = finding;
      const key = finding.top === undefined ? 'distance' : 'top';
      const mm = finding[key];
      const at = ['visits', visit, 'found', name];
      const small = mm !== undefined && wall !== undefined && areCentimetres(mm, wall);
      if (wall && !finding['wall-lowered'] && (small || isTooShort(animal, date, wall))) {
        const path = [...at, 'wall'];
        const least = numbers.wallAtLeast.value;
        if (wall < numbers.bothBelow.value) doubt(path, wall);
        else doubts.push({ ...messageOf('record/centimetres', { mm: wall, least }, 'grown'), path });
      }
      if (mm === undefined || finding['top-found'] === 'higher') continue;
      const now = { mm, date, by, at: [...at, key], ...given({ tool }) };
      const line = animal.lesions[name]?.line ?? animal.marks?.[name]?.line;
      const before = last.get(name);
      // Somebody may have said already that it lies where it would not be looked for.
      const isSaid = finding['ran-up'] === true || finding['opened-further'] === true;
      const range = mm === 0 || isSaid ? undefined : mayRead(before, now, line);
      const leaves = range !== undefined && !isIn(range, mm);
      const isTiny = key === 'top' && mm > 0 && mm < numbers.topAtLeast.value;
      if (small || isTiny || (leaves && isIn(range, times10(mm)))) {
        doubt(now.at, mm);
        continue;
      }
      last.set(name, now);
      if (!leaves || !before) continue;
      const isBeforeInCm =
        isDecimal(before.mm) && isIn(mayRead({ ...before, mm: times10(before.mm) }, now, line)!, mm);
      if (isBeforeInCm) doubt(before.at, before.mm);
      else if (key === 'top') leaving.push({ visit, name, now });
    }
  return { doubts, last, leaving };
}

/** Top and wall both so small, and one of them with a decimal: nobody measures so, but in centimetres. */
function areCentimetres(top: number, wall: number): boolean {
  const most = numbers.bothBelow.value;
  return top > 0 && wall > 0 && top < most && wall < most && (isDecimal(top) || isDecimal(wall));
}

function isDecimal(mm: number): boolean {
  return mm < numbers.bothBelow.value && !Number.isInteger(mm);
}

/** Of a grown cow: one of whom it is not known that she had not calved by then. */
function isTooShort(
  { calvings, 'calved-before': before = 0 }: Animal,
  day: CalendarDay,
  wall: number,
): boolean {
  const isGrown = calvings === undefined || before > 0 || calvings.some((calving) => calving <= day);
  return isGrown && wall < numbers.wallAtLeast.value;
}

/** What a length may read after another, by the fastest horn and the widest reading errors; nothing to compare: undefined. */
function mayRead(
  before: Point | undefined,
  now: Point,
  line: WallLine | undefined,
): { readonly low: number; readonly high: number } | undefined {
  if (before === undefined || line === undefined) return undefined;
  const sds = -tests.standsBelow.value;
  const { rate, deviation, wall, wallSd } = lines[line];
  const spread = Math.hypot(cow.between.value, cow.ofMean.value, deviation.value);
  const fastest = rate.value * lactation.first.value * (1 + season.grazed.value) * (1 + sds * spread);
  const error =
    sds *
    Math.hypot(
      readingError(before.tool, before.mm, true),
      readingError(now.tool, before.mm, now.by === before.by),
    );
  const grown = (fastest * daysBetween(before.date, now.date)) / month.value;
  const longest = Math.max(before.mm, wall.value + sds * wallSd.value);
  return { low: before.mm - error, high: Math.min(before.mm + grown, longest) + error };
}

function isIn({ low, high }: { readonly low: number; readonly high: number }, mm: number): boolean {
  return low <= mm && mm <= high;
}

function times10(mm: number): number {
  return Number((mm * 10).toFixed(3));
}

/** A day about a year from where it belongs, `within` days before the other one, or behind it. */
function otherYear(
  path: RecordPath,
  day: CalendarDay,
  near: CalendarDay,
  within: number,
  id: (typeof doubtIds)[number] = 'record/other-year',
): Doubt[] {
  const isBefore = day < near;
  const fits = `${Number(day.slice(0, 4)) + (isBefore ? 1 : -1)}${day.slice(4).replace('-02-29', '-02-28')}`;
  const apart = isBefore ? daysBetween(fits, near) : daysBetween(near, fits);
  if (apart < 0 || apart > within) return [];
  return [{ ...messageOf(id, { day, fits }), path, fits }];
}

/** Days a visit describes, a year before it; and days it plans, a year too far ahead. */
function daysOfVisit(visit: Visit, at: number): Doubt[] {
  const { date } = visit;
  const doubts = (days: ReturnType<typeof daysAt>, isPast: boolean, within: number) =>
    days.flatMap(([path, day]) =>
      day === undefined || day === 'unknown' || day < date !== isPast
        ? []
        : otherYear(['visits', at, ...path], day, date, within),
    );
  const told = (['blocks', 'wraps', 'products', 'farm-did'] as const).flatMap((key) =>
    daysAt(visit, key, 'on'),
  );
  const planned = [...daysAt(visit, 'products', 'until'), ...daysAt(visit, 'ask-farm', 'by')];
  return [
    ...doubts([...told, [['vet', 'asked'], visit.vet?.asked]], true, numbers.yearTold.value),
    ...doubts([...planned, [['recheck'], visit.recheck]], false, numbers.yearPlanned.value),
  ];
}

function daysAt(visit: Visit, key: keyof Visit, part: string): [RecordPath, CalendarDay | undefined][] {
  const entries = (visit[key] ?? []) as readonly Readonly<Record<string, CalendarDay>>[];
  return entries.map((entry, at) => [[key, at, part], entry[part]]);
}

/** A visit a year before the next one of its run, with none near it. */
function dayOfVisit({ visits, episodes = [] }: Animal, at: number): Doubt[] {
  const [before, { date }, next] = [visits[at - 1], visits[at]!, visits[at + 1]];
  if (!next || (before && daysBetween(before.date, date) <= numbers.yearPlanned.value)) return [];
  if (episodes.some(({ ended }) => ended !== undefined && ended >= date && ended <= next.date)) return [];
  return otherYear(['visits', at, 'date'], date, next.date, numbers.yearTold.value);
}

function doubtsOnEntry(
  animal: Animal,
  entered: number,
  today: CalendarDay,
  others: readonly Animal[],
): Doubt[] {
  const { date } = animal.visits[entered]!;
  const path = ['visits', entered, 'date'];
  const rest = animal.visits.filter((_, at) => at !== entered);
  const within = numbers.yearTold.value;
  const isAmongOthers = rest.some((other) => Math.abs(daysBetween(other.date, date)) <= within);
  const year = isAmongOthers || date >= today ? [] : otherYear(path, date, today, within, 'entry/other-year');
  const last = rest.at(-1)?.date ?? '';
  const early: Doubt[] =
    year.length > 0 || date >= last
      ? []
      : [{ ...messageOf('entry/before-last-visit', { day: date, last }), path }];
  return [...year, ...early, ...readingsOfOthers(animal, entered, others)];
}

/** A top that growth cannot bring and that fits one other cow, at a lesion of the same name: two numbers may be mixed up. */
function readingsOfOthers(animal: Animal, entered: number, others: readonly Animal[]): Doubt[] {
  return lengthsOf(animal)
    .leaving.filter(({ visit }) => visit === entered)
    .flatMap(({ name, now }) => {
      const own = animal.lesions[name];
      const [only, another] = others.filter((other) => {
        const last = lengthsOf(other).last.get(name);
        const lesion = other.lesions[name];
        const isAlike = lesion?.foot === own?.foot && lesion?.claw === own?.claw;
        if (!last || last.date >= now.date || !isAlike || !isOpen(other, name)) return false;
        const range = mayRead(last, now, lesion?.line);
        return range !== undefined && isIn(range, now.mm);
      });
      if (!only || another) return [];
      const values = { mm: now.mm, name, animal: only.animal };
      return [{ ...messageOf('entry/other-animal', values), path: now.at }];
    });
}

function isOpen({ visits }: Animal, name: string): boolean {
  const state = visits.findLast(({ found }) => found?.[name]?.state)?.found?.[name]?.state;
  return state === 'open' || state === 'covered';
}
