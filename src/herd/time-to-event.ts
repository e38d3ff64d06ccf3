import { isHealed } from '../record/visit.js';
import { z } from 'zod';
import { calendarDay, type CalendarDay, daysBetween } from '../record/calendar-day.js';
import { herdNumbers } from '../reference/numbers.js';
import type { Bounds, Interval } from '../statistics/estimate.js';
import { intervalCensoredSurvival, type MassIn } from '../statistics/npmle-masses.js';
import { shareBounds } from '../statistics/share-bounds.js';
import { printed } from './printed-figure.js';
import { nameOfFile, animalNames, type FilesOfFarm } from '../record/same-animal.js';
import type { FarmRecord, CaseRecord } from '../record/practice.js';
import { lesionCodes, type LesionCode } from '../record/words.js';
import type { FollowedLesion } from './lesion-rates.js';
import { episodesOf, type FollowedEpisode } from '../healing/episode.js';
import { gaitStanding } from '../healing/gait-standing.js';
import type { GaitScore } from '../healing/standing.js';
import { walkOf } from '../reference/scales.js';
import { given } from '../record/given.js';

/** How long one lesion or one lameness episode took, as far as it was seen. */
export interface CaseTime {
  /** File names without `.md`: an animal is distinguished from others by both. */
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
type ShareByDay = Readonly<{ day: number; lower: number; upper: number }>;

/** How long such cases took: the curve as far as it may be printed, and the cases one by one. */
export interface TimeToEvent {
  /** How many cases it is based on. */
  readonly count: number;
  /** The cases themselves; none where they are another farm's to know. */
  readonly cases: readonly CaseTime[];
  /** How many animals they belong to: two lesions of one cow are not two witnesses. */
  readonly animals: number;
  /** In how many it was seen to have come. */
  readonly come: number;
  readonly curve?: {
    /** The shares that came from one day of `bounds` to another; nothing is said of when inside such a box. Between them none came. */
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
 * look stays in, as not yet. Of fewer than five animals no curve is made, and each case is listed by itself. It is cut off where
 * fewer than five cases are still followed: else one old case that healed late, when all others were seen only early, would
 * make it say that all had healed by then. And it is given on those days alone whose share may be printed.
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
  const times = new Map<string, Interval[]>();
  for (const one of sorted) times.set(animalOf(one), [...(times.get(animalOf(one)) ?? []), one.days]);
  const animals = times.size;
  const come = sorted.filter(({ days }) => days.by !== Infinity).length;
  const curve = animals < herdNumbers.figures.fewCases.value ? undefined : curveOf([...times.values()]);
  return { count: sorted.length, cases: sorted, animals, come, ...given({ curve }) };
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
  return { boxes, knownTo, ...given({ half: halfOf(boxes, bounds, byAnimal.length) }), bounds };
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
  const options = { level: level.value, draws: boundDraws.value, seed: boundSeed.value };
  return shareBounds(animals, days, options).map(({ low, high }, at) => ({
    day: days[at]!,
    lower: low,
    upper: high,
  }));
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

export interface HealingOfKind extends TimeToEvent {
  readonly code: LesionCode;
  /** Found to re-form from the coronet: never healed, and in none of the other numbers. */
  readonly lasting: number;
}

/**
 * How long lesions took from first seen to seen healed, by kind.
 *
 * A lesion still open stays in up to its last lifted look, one that ran into another up to the look that found it so. A lasting
 * fault cannot heal and is counted apart. A lesion that broke down again is a case of its own. For digital dermatitis the first
 * normal skin (M0) counts, and what comes after is a return.
 *
 * Shape:   what each file on some farms says of it → one entry for each kind that was followed, in the order of the codes
 * Unit:    days
 * Checked: tests/herd/time-to-healed.test.ts
 */
export function timeToHealed(
  farms: readonly FilesOfFarm<{ readonly healed: readonly HealingTime[] }>[],
): HealingOfKind[] {
  const followed = farms.flatMap(({ cases }) => cases.flatMap(({ healed }) => healed));
  const animalOf = animalNames(farms);
  return lesionCodes.flatMap((code) => {
    const ofKind = followed.filter((one) => one.code === code);
    if (ofKind.length === 0) return [];
    const lasting = ofKind.filter((one) => one.lasting).length;
    const healing = timesOn(farms, ({ healed }) => healed.filter((one) => one.code === code && !one.lasting));
    return [{ code, lasting, ...timeToEvent(healing, animalOf) }];
  });
}

/** How long something took in one file, in days since `from`: after the last look that found it not so yet, by the first that did; no `by` if none did. */
export const seenTime = z.strictObject({ from: calendarDay, after: z.number(), by: z.number().optional() });
type SeenTime = Readonly<z.infer<typeof seenTime>>;

/** Of a lesion that was followed: from first seen, after last seen not healed, by first seen healed. */
export const healingTime = seenTime.extend({
  code: z.enum(lesionCodes),
  lesion: z.string(),
  /** Found to re-form from the coronet. */
  lasting: z.literal(true).optional(),
});
type HealingTime = Readonly<z.infer<typeof healingTime>>;

function timesOn<Held>(
  farms: readonly FilesOfFarm<Held>[],
  of: (held: Held) => readonly (SeenTime & { readonly lesion?: string })[],
): CaseTime[] {
  return farms.flatMap(({ slug: farm, cases }) =>
    cases.flatMap((one) => {
      const file = { farm, slug: one.slug, animal: one.animal.animal };
      return of(one).map(({ lesion, from, after, by = Infinity }) => {
        return { ...file, ...given({ lesion }), from, days: { after, by } };
      });
    }),
  );
}

/** (last seen not healed, first seen healed], in days since first seen. */
export function healingTimeOf({ code, name, looks, firstSeen }: FollowedLesion): HealingTime {
  const joined = looks.findIndex(({ found }) => found.joined !== undefined);
  const own = joined < 0 ? looks : looks.slice(0, joined + 1);
  const healed = own.findIndex(({ found }) => isHealed(found));
  const openLook = healed < 0 ? own.at(-1) : own[healed - 1];
  const healedLook = own[healed];
  return {
    code,
    lesion: name,
    ...(looks.some(({ found }) => found.state === 'lasting') ? { lasting: true } : {}),
    ...timeFrom(firstSeen, openLook?.date ?? firstSeen, healedLook?.date),
  };
}

/** What is waited for in a walk: below the lame mark, or the soundest score of the scale. */
export type WalkMark = 'not-lame' | 'sound';

/**
 * How long cows took from the first walk scored lame to the first that counts as not lame, or as sound.
 *
 * Why so strict: a walk on a block says nothing of the foot, so it neither ends the time nor keeps it running, unless she was
 * lame even on it. A walk counts with no block on, at least 7 days after the last came off. The last walk that was not so
 * yet is the other end. A lameness episode without a lame walk has no time to count.
 *
 * Shape:   a file, its farm, the day, what is waited for → the time of each of her lameness episodes that has one
 * Unit:    days
 * Checked: tests/herd/time-to-walk.test.ts
 */
export function walkTimes(
  farm: FarmRecord,
  record: CaseRecord,
  today: CalendarDay,
  mark: WalkMark,
): SeenTime[] {
  return episodesOf(record.animal, today).flatMap(
    (episode) => walkTime(farm, record, episode, today, mark) ?? [],
  );
}

/** How long all the cows of some farms took to walk so, each lameness episode by itself. */
export function timeToWalk<Mark extends string>(
  farms: readonly FilesOfFarm<Readonly<Record<Mark, readonly SeenTime[]>>>[],
  mark: Mark,
): TimeToEvent {
  return timeToEvent(
    timesOn(farms, (held) => held[mark]),
    animalNames(farms),
  );
}

function walkTime(
  farm: FarmRecord,
  record: CaseRecord,
  episode: FollowedEpisode,
  today: CalendarDay,
  mark: WalkMark,
): SeenTime | undefined {
  const { scores } = gaitStanding(record.animal, farm.farm, episode, today);
  const firstLame = scores.findIndex(({ lame }) => lame);
  const start = scores[firstLame];
  if (!start) return undefined;
  const after = scores.slice(firstLame);
  const isThere = ({ scale, score, lame }: GaitScore) =>
    mark === 'sound' ? walkOf(scale, score) === 'sound' : !lame;
  const came = after.find((score) => isThere(score) && counts(farm, record, episode, score));
  const isNotYet = (score: GaitScore) => score.lame || (score.block === 'off' && !isThere(score));
  const lastNot = after.findLast((score) => isNotYet(score) && (!came || score.visit < came.visit)) ?? start;
  return timeFrom(start.date, lastNot.date, came?.date);
}

function timeFrom(from: CalendarDay, after: CalendarDay, by: CalendarDay | undefined): SeenTime {
  const seen = by === undefined ? undefined : daysBetween(from, by);
  return { from, after: daysBetween(from, after), ...given({ by: seen }) };
}

/** Off the block and long enough after it, as the record stood on the day of the walk. */
function counts(farm: FarmRecord, record: CaseRecord, episode: FollowedEpisode, score: GaitScore): boolean {
  if (score.lame || score.block !== 'off') return false;
  const upTo = { ...episode, visits: episode.visits.filter((at) => at <= score.visit) };
  return gaitStanding(record.animal, farm.farm, upTo, score.date).standing === 'sound';
}
