import type { CalendarDay } from '../record/calendar-day.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import type { Bounds } from '../statistics/bounds.js';
import type { Interval } from '../statistics/interval.js';
import { intervalCensoredSurvival, type MassIn } from '../statistics/interval-censored-survival.js';
import { shareBounds } from '../statistics/share-bounds.js';
import { printed } from './printed-figure.js';
import { nameOfFile } from '../record/same-animal.js';

/** How long one lesion or one run of trouble took, as far as it was seen. */
export interface CaseTime {
  /** File names without `.md`: an animal is told apart from others by both. */
  readonly farm: string;
  readonly slug: string;
  /** Number on the farm. */
  readonly animal: string;
  /** Short name of the lesion; absent where the time is the animal's. */
  readonly lesion?: string;
  readonly from: CalendarDay;
  /** Days since `from`: after the last look that found it not so yet, by the first that did; `by` Infinity if none did. */
  readonly days: Interval;
}

/** What chance leaves open of the share in which it has come by a day, 0 to 1. */
export interface ShareByDay {
  readonly day: number;
  readonly lower: number;
  readonly upper: number;
}

/** How long such cases took: the curve as far as it may be printed, and the cases one by one. */
export interface TimeToEvent {
  /** How many cases it rests on. */
  readonly count: number;
  /** The cases themselves; none where they are another farm's to know. */
  readonly cases: readonly CaseTime[];
  /** How many animals they belong to: two lesions of one cow are not two witnesses. */
  readonly animals: number;
  /** In how many it was seen to have come. */
  readonly come: number;
  readonly curve?: {
    /** The shares that came from one day of `bounds` to another; nothing is told of when inside such a box. Between them none came. */
    readonly boxes: readonly MassIn[];
    /** The last day whose share may be printed; past it the curve is cut off. */
    readonly knownTo: number;
    /** The box in which half had come, with the days between which half of such cases have; absent where that may not be printed. */
    readonly half?: Interval & Bounds;
    /**
     * Bounds of the share come on each day whose share is known and may be printed, from early to late. Between two of
     * those days the lower bound stays that of the earlier, the upper one is that of the later.
     */
    readonly bounds: readonly ShareByDay[];
  };
}

/**
 * How long cases took until something was seen to have come.
 *
 * Why intervals: a trim every six weeks finds healed what was open before; the day itself nobody saw. What had not come at the last
 * look stays in, as not yet. Of fewer than five animals no curve is made, and each case is told by itself. It is cut off where
 * fewer than five cases are still followed: else one old case that healed late, when all others were seen only early, would
 * make it say that all had healed by then. And it is told on those days alone whose share may be printed.
 *
 * It supposes that looks are not timed by healing, and that those not seen again heal as the others do. The
 * bounds come from drawing whole animals anew: two lesions of one cow are not two witnesses.
 *
 * Shape:   cases in any order, the name of the animal a case belongs to (by default its file) → the same result
 * Unit:    days
 * Source:  shared/herd.json `fewCases`, `level`, `boundDraws`, `boundSeed`
 * Checked: tests/herd/time-to-healed.test.ts (by hand), tests/herd/printed-figure.test.ts
 */
export function timeToEvent(
  cases: readonly CaseTime[],
  animalOf: (one: CaseTime) => string = nameOfFile,
): TimeToEvent {
  const sorted = cases.toSorted(byPlace);
  const byAnimal = timesByAnimal(sorted, animalOf);
  const animals = byAnimal.length;
  const come = sorted.filter(({ days }) => days.by !== Infinity).length;
  const curve = animals < herdNumbers.figures.fewCases.value ? undefined : curveOf(byAnimal);
  return { count: sorted.length, cases: sorted, animals, come, ...(curve ? { curve } : {}) };
}

function timesByAnimal(sorted: readonly CaseTime[], animalOf: (one: CaseTime) => string): Interval[][] {
  const times = new Map<string, Interval[]>();
  for (const one of sorted) times.set(animalOf(one), [...(times.get(animalOf(one)) ?? []), one.days]);
  return [...times.values()];
}

function curveOf(byAnimal: readonly (readonly Interval[])[]): TimeToEvent['curve'] {
  const times = byAnimal.flat();
  const { support } = intervalCensoredSurvival(times);
  const followed = followedTo(times);
  const begun = support.filter(({ after, by }) => after < followed || by <= followed);
  const bounds = boundsByDay(byAnimal, begun, followed).filter(
    ({ day, lower, upper }) =>
      printed({ low: lower, high: upper }, byAnimal.length) &&
      !support.some(({ after, by }) => after < day && day < by),
  );
  const knownTo = bounds.at(-1)?.day;
  if (knownTo === undefined) return undefined;
  const boxes = bounds.flatMap(({ day: by }, at): MassIn[] => {
    const after = bounds[at - 1]?.day ?? 0;
    const mass = begun.reduce((sum, box) => (box.by > after && box.by <= by ? sum + box.mass : sum), 0);
    return mass > 0 ? [{ after, by, mass }] : [];
  });
  const half = halfOf(boxes, bounds, byAnimal.length);
  return { boxes, knownTo, ...(half ? { half } : {}), bounds };
}

/** Half may have come after the last day on which surely fewer had, and has come by the first on which surely so many had. */
function halfOf(boxes: readonly MassIn[], bounds: readonly ShareByDay[], animals: number) {
  let come = 0;
  const half = boxes.find(({ mass }) => (come += mass) >= 0.5 - 1e-9);
  if (!half) return undefined;
  const low = bounds.findLast(({ upper }) => upper < 0.5)?.day ?? 0;
  const high = bounds.find(({ lower }) => lower >= 0.5)?.day ?? Infinity;
  return printed({ after: half.after, by: half.by, low, high }, animals, bounds.at(-1)!.day);
}

function boundsByDay(
  animals: readonly (readonly Interval[])[],
  boxes: readonly Interval[],
  knownTo: number,
): ShareByDay[] {
  const { level, boundDraws, boundSeed } = herdNumbers.figures;
  const ends = [...boxes.flatMap(({ after, by }) => [after, by]), knownTo];
  const days = [...new Set(ends.filter((day) => day > 0 && day < Infinity))].sort((a, b) => a - b);
  const bounds = shareBounds(animals, days, {
    level: level.value,
    draws: boundDraws.value,
    seed: boundSeed.value,
  });
  return days.map((day, at) => ({ day, lower: bounds[at]!.low, upper: bounds[at]!.high }));
}

/** The day up to which enough cases were followed: each to the look that found it come, else to its last look. */
function followedTo(times: readonly Interval[]): number {
  const reach = times.map(({ after, by }) => (by === Infinity ? after : by));
  return reach.sort((a, b) => b - a)[herdNumbers.figures.fewCases.value - 1] ?? 0;
}

function byPlace(a: CaseTime, b: CaseTime): number {
  const key = ({ farm, slug, from, lesion }: CaseTime) => `${farm}/${slug}/${from}/${lesion ?? ''}`;
  return key(a) < key(b) ? -1 : 1;
}
