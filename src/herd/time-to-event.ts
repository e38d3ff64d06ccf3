import type { CalendarDay } from '../record/calendar-day.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import type { Interval } from '../statistics/interval.js';
import { intervalCensoredSurvival, type MassIn } from '../statistics/interval-censored-survival.js';
import { shareBounds } from '../statistics/share-bounds.js';
import { timeOfShare } from '../statistics/time-of-share.js';
import { nameOfFile } from './same-animal.js';

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

/** How long such cases took: the curve where there are enough of them, else the cases one by one. */
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
    /** Where the events fall, up to `knownTo`; nothing is known of where inside a box. */
    readonly boxes: readonly MassIn[];
    /** Up to this day five cases or more were followed; past it the curve would be that of a few, and is cut off. */
    readonly knownTo: number;
    /** The box in which half had come; `by` Infinity where it was not seen; absent where the curve is cut off before it. */
    readonly half?: Interval;
    /**
     * Bounds of the share come, day by day, at each finite end of a box and at `knownTo`, from early to late. Between two of
     * those days the lower bound stays that of the earlier, the upper one is that of the later. Absent with fewer than five animals.
     */
    readonly bounds?: readonly ShareByDay[];
  };
}

/**
 * How long cases took until something was seen to have come.
 *
 * Why intervals: a trim every six weeks finds healed what was open before; the day itself nobody saw. What had not come at the last
 * look stays in, as not yet. With fewer than five cases no curve is made, and each is told by itself. And it is cut off where
 * fewer than five are still followed: else one old case that healed late, when all others were seen only early, would
 * make it say that all had healed by then.
 *
 * It supposes that looks are not timed by healing, and that those not seen again heal as the others do. The
 * bounds come from drawing whole animals anew: two lesions of one cow are not two witnesses. Of fewer than five
 * animals none are given.
 *
 * Shape:   cases in any order, the name of the animal a case belongs to (by default its file) → the same result
 * Unit:    days
 * Source:  shared/herd.json `fewCases`, `level`, `boundDraws`, `boundSeed`
 * Checked: tests/herd/time-to-healed.test.ts (by hand)
 */
export function timeToEvent(
  cases: readonly CaseTime[],
  animalOf: (one: CaseTime) => string = nameOfFile,
): TimeToEvent {
  const sorted = cases.toSorted(byPlace);
  const animals = new Set(sorted.map(animalOf)).size;
  const come = sorted.filter(({ days }) => days.by !== Infinity).length;
  const told = { count: sorted.length, cases: sorted, animals, come };
  const few = herdNumbers.figures.fewCases.value;
  if (sorted.length < few) return told;
  const { support } = intervalCensoredSurvival(sorted.map(({ days }) => days));
  const knownTo = followedTo(sorted, few);
  const isKnown = ({ after, by }: Interval) => after < knownTo || by <= knownTo;
  const half = timeOfShare(support, 0.5);
  const boxes = support.filter(isKnown);
  const bounds = boundsByDay(timesByAnimal(sorted, animalOf), boxes, knownTo);
  return {
    ...told,
    curve: { boxes, knownTo, ...(isKnown(half) ? { half } : {}), ...(bounds ? { bounds } : {}) },
  };
}

function timesByAnimal(sorted: readonly CaseTime[], animalOf: (one: CaseTime) => string): Interval[][] {
  const times = new Map<string, Interval[]>();
  for (const one of sorted) times.set(animalOf(one), [...(times.get(animalOf(one)) ?? []), one.days]);
  return [...times.values()];
}

function boundsByDay(
  animals: readonly (readonly Interval[])[],
  boxes: readonly Interval[],
  knownTo: number,
): ShareByDay[] | undefined {
  const { fewCases, level, boundDraws, boundSeed } = herdNumbers.figures;
  if (animals.length < fewCases.value) return undefined;
  const ends = boxes.flatMap(({ after, by }) => [after, by]).filter((day) => day > 0 && day < Infinity);
  const days = [...new Set([...ends, knownTo])].sort((a, b) => a - b);
  const bounds = shareBounds(animals, days, {
    level: level.value,
    draws: boundDraws.value,
    seed: boundSeed.value,
  });
  return days.map((day, at) => ({ day, lower: bounds[at]!.low, upper: bounds[at]!.high }));
}

/** The day up to which so many were followed: each to the look that found it come, else to its last look. */
function followedTo(cases: readonly CaseTime[], few: number): number {
  const reach = cases.map(({ days: { after, by } }) => (by === Infinity ? after : by));
  return reach.sort((a, b) => b - a)[few - 1] ?? 0;
}

function byPlace(a: CaseTime, b: CaseTime): number {
  const key = ({ farm, slug, from, lesion }: CaseTime) => `${farm}/${slug}/${from}/${lesion ?? ''}`;
  return key(a) < key(b) ? -1 : 1;
}
