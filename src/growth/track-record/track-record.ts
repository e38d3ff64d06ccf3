import { z } from 'zod';
import { calendarDay, type CalendarDay, dayNumber } from '../../record/calendar-day.js';
import type { FilesOfFarm } from '../../record/same-animal.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import { type GrowingConditions, isMeasured } from '../growth-line.js';
import type { Animal } from '../../record/animal.js';
import { normalCdf } from '../../statistics/normal.js';
import { type AnimalFollowed, followAnimal } from '../follow-animal.js';
import { gapOnItsWay } from '../gap-growth.js';
import { publishedPrior } from '../growth-of-animal.js';
import { likelyOutAfter } from '../when-out.js';
import { isLeftDown } from '../../record/lifting.js';
import { type GapPlace, wallGaps } from '../wall-gaps.js';

/** One forecast against what came: how much of it lay inside the range, 0 to 1, and how many days the best day was off. */
const forecastScore = z.strictObject({ inRange: z.number(), errorDays: z.number() });
type ForecastScore = Readonly<z.infer<typeof forecastScore>>;

const { early, late, horizon } = growthNumbers.forecast;

/**
 * Scores a forecast, by its chance of being out by a day and its best day (null: none within five years), against the days
 * between which the gap was seen to have grown out.
 *
 * Nobody saw the day itself, only that it fell in (after, by]. So the share of the chance spent over those days
 * that lies inside the range counts, not a yes or no; and a best day anywhere between them is not off at all.
 *
 * Unit:    chances 0 to 1; day numbers
 * Source:  the probability integral transform, censored; shared/growth.json `forecast`
 * Checked: tests/hand-worked/track-record.test.ts, tests/growth/track-record.test.ts
 */
export function scoreForecast(
  { chanceOutBy, best }: { readonly chanceOutBy: (day: number) => number; readonly best: number | null },
  truth: { readonly after: number; readonly by: number },
): ForecastScore {
  return {
    inRange: shareInside(chanceOutBy(truth.after), chanceOutBy(truth.by)),
    errorDays: best === null ? horizon.value : Math.max(0, truth.after - best, best - truth.by),
  };
}

function shareInside(one: number, other: number): number {
  const low = Math.min(one, other);
  const high = Math.max(one, other);
  if (low === high) return low >= early.value && low <= late.value ? 1 : 0;
  return Math.max(0, Math.min(high, late.value) - Math.max(low, early.value)) / (high - low);
}

/** One healed gap with the scores of the forecasts made of it. */
export const scoredGap = z.strictObject({
  lesion: z.string(),
  /** Last seen not yet healed, first seen healed: (after, by]. */
  after: calendarDay,
  by: calendarDay,
  scores: z.array(forecastScore),
  /** Readings after which no date was given, with the reason said, and those taken with the expected one in view: not scored. */
  withoutForecast: z.number(),
  leftOut: z.number(),
  /** The clock was started anew at least once: it ran up, was held, opened further, or was not reached. */
  restarted: z.boolean(),
});
type ScoredGap = Readonly<z.infer<typeof scoredGap>>;

/**
 * Scores every forecast that was made of an animal's healed gaps, each with what was known on its day.
 *
 * Valid:   under the published prior, whatever other cows have taught since
 * Checked: tests/hand-worked/track-record.test.ts, tests/growth/track-record.test.ts
 */
export function scoredGaps(animal: Animal, conditions: GrowingConditions, today: CalendarDay): ScoredGap[] {
  const knownOn = new Map<CalendarDay, AnimalFollowed>();
  const followedOn = (lesion: string, day: CalendarDay) => {
    const known = knownOn.get(day) ?? followAnimal(animal, conditions, { today: day, prior: publishedPrior });
    knownOn.set(day, known);
    const index = known.gaps.findIndex((gap) => gap.lesion === lesion);
    return { place: known.gaps[index], line: known.followed.lines[index] };
  };
  return healedGaps(animal, today).map(({ forecastOn, ...gap }) => {
    const { lesion, after, by } = gap;
    const truth = { after: dayNumber(after), by: dayNumber(by) };
    const scores = forecastOn.flatMap((day) => {
      const { place, line } = followedOn(lesion, day);
      if (!place || !line) return [];
      const { why, way } = gapOnItsWay(animal, place, line, conditions, { today: day });
      if (why !== undefined || way === undefined) return [];
      const best = likelyOutAfter(way);
      const chanceOutBy = (on: number) => normalCdf(way.pastGround(on - way.from));
      return scoreForecast({ chanceOutBy, best: best === null ? null : way.from + best }, truth);
    });
    const own = followedOn(lesion, after).line;
    const restarted = own?.start !== undefined && own.start !== own.line.readings.find(isMeasured);
    return { ...gap, scores, withoutForecast: forecastOn.length - scores.length, restarted };
  });
}

/** A wall gap that was seen healed, and between which days it came to be: after the one, by the other. */
interface HealedGap extends Pick<ScoredGap, 'lesion' | 'after' | 'by' | 'leftOut'> {
  /** Days after which a forecast was made: those of its readings up to `after`, but where the expected reading was seen first. */
  readonly forecastOn: readonly CalendarDay[];
}

/**
 * Finds the wall gaps of an animal that were seen healed, with the days on which a forecast was made of each.
 *
 * Valid:   only what was seen on a lifted foot; a gap that is covered is not healed yet; a gap first seen healed, or
 *          followed elsewhere after it joined another, has no forecast to score
 * Checked: tests/growth/track-record.test.ts, tests/hand-worked/track-record.test.ts
 */
export function healedGaps(animal: Animal, today: CalendarDay): HealedGap[] {
  return wallGaps(animal, today).placed.flatMap((place) => healedGap(animal, place, today) ?? []);
}

function healedGap(animal: Animal, { lesion, foot }: GapPlace, today: CalendarDay): HealedGap | undefined {
  const looks = animal.visits.flatMap((visit) => {
    const found = visit.found?.[lesion];
    if (found === undefined || visit.date > today || isLeftDown(visit, foot, found)) return [];
    return { date: visit.date, found, sawExpected: visit['saw-expected'] === true };
  });
  const by = looks.find(({ found }) => found.state === 'healed')?.date;
  if (by === undefined || looks.some(({ found }) => found.joined !== undefined)) return undefined;
  const isOpen = (state: string | undefined) => state === 'open' || state === 'covered';
  const after = looks.findLast(({ date, found }) => date < by && isOpen(found.state))?.date;
  if (after === undefined) return undefined;
  const read = looks.filter(
    ({ date, found }) => date <= after && (found.top !== undefined || found['top-found'] === 'higher'),
  );
  const days = [...new Set(read.map(({ date }) => date))];
  const anchored = new Set(read.filter(({ sawExpected }) => sawExpected).map(({ date }) => date));
  return {
    lesion,
    after,
    by,
    forecastOn: days.filter((date) => !anchored.has(date)),
    leftOut: anchored.size,
  };
}

/** How good we were: every gap with its scores, and how many forecasts they are based on. */
export interface TrackRecord {
  readonly gaps: readonly (ScoredGap & { readonly farm: string; readonly slug: string })[];
  readonly forecasts: number;
  /** Readings after which no date was given, and readings taken with the expected one in view: not scored. */
  readonly withoutForecast: number;
  readonly leftOut: number;
}

/**
 * How the forecasts scored, for every wall gap seen healed on any farm, in the order of farms and files.
 *
 * Valid:   forecasts from published numbers and the cow's own readings alone, as known on each day
 * Source:  shared/growth.json `forecast`
 * Checked: tests/hand-worked/track-record.test.ts, tests/growth/track-record.test.ts
 * @example trackRecord([]).leftOut // → 0
 */
export function trackRecord(
  farms: readonly FilesOfFarm<{ readonly gaps: readonly ScoredGap[] }>[],
): TrackRecord {
  const gaps = farms.flatMap(({ slug: farm, cases }) =>
    cases.flatMap(({ slug, gaps: hers }) => hers.map((gap) => ({ farm, slug, ...gap }))),
  );
  const sum = (of: (gap: ScoredGap) => number) => gaps.reduce((all, gap) => all + of(gap), 0);
  return {
    gaps,
    forecasts: sum(({ scores }) => scores.length),
    withoutForecast: sum((gap) => gap.withoutForecast),
    leftOut: sum((gap) => gap.leftOut),
  };
}
