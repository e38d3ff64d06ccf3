import { toolError, growthNumbers } from '../../reference/growth-numbers.js';
import { type WayDown, daysOn, wayDown, whenOut } from '../../growth/when-out.js';
import { type CalendarDay, daysBetween } from '../../record/calendar-day.js';
import type { Tool, LesionCode } from '../../record/words.js';
import type {
  NextWidth,
  ClosingForecast,
  NoClosingDate,
  UlcerClosing,
  ClosingKind,
  ClosingReading,
} from './ulcer-closing.js';
import { type LineCourse, followLines, type Judged } from '../../growth/follow-lines.js';
import { isMeasured, type GrowingConditions } from '../../growth/growth-line.js';
import { isByEyeAlone } from '../../growth/wall-gaps.js';
import type { Departure } from '../../growth/what-is-known.js';
import type { Animal } from '../../record/animal.js';
import { familyOf, hasTrait, lesionKinds } from '../../reference/lesions.js';
import { onceForAnimal } from '../looks-at-lesion.js';
import { type UlcerHistory, ulcerHistory, type WidthReading } from './ulcer-history.js';
import type { ReadingKind } from '../../growth/animal-growth.js';
import { ellipse, marginAdvance as advanceOf } from '../../statistics/ellipse.js';
import { given } from '../../record/given.js';

/**
 * What the width of an ulcer should be on a later day, with the error of the tool last used.
 *
 * Unit:    mm, not below 0
 * Valid:   undefined before the last used width
 * Source:  shared/growth.json `forecast.rangeSds`, `tests.doubtfulBelow`
 * Checked: tests/healing/closing/closing-of-ulcer.test.ts
 */
function nextWidth(way: WayDown, tool: Tool | undefined, date: CalendarDay): NextWidth | undefined {
  const days = daysOn(way, date);
  if (days < 0) return undefined;
  const { mean, variance } = way.topAfter(days);
  const widthMm = Math.max(0, -2 * mean);
  const sdMm = Math.hypot(2 * Math.sqrt(variance), toolError(tool, widthMm));
  const within = (sds: number) => Math.max(0, -2 * mean + sds * sdMm);
  const half = growthNumbers.forecast.rangeSds.value;
  return {
    date,
    meanMm: widthMm,
    lowMm: within(-half),
    highMm: within(half),
    alarmMm: within(-growthNumbers.tests.doubtfulBelow.value),
  };
}

/** The filter's words for a gap in the wall, as they read of an ulcer. */
const kinds: Partial<Record<ReadingKind, ClosingKind>> = {
  first: 'first',
  grew: 'as-expected',
  doubtful: 'doubtful',
  'ran-up': 'opening-up',
  held: 'held',
  'opened-further': 'opened-further',
  'lower-than-growth': 'smaller-than-closing',
};

/**
 * The widths of an ulcer as they are shown.
 *
 * Valid:   the first width after it was found closed reads `came-back`; the margin's advance is given within one run only
 * Checked: tests/healing/closing/closing-of-ulcer.test.ts
 */
function closingReadings({ judged, used }: LineCourse): ClosingReading[] {
  const readings: ClosingReading[] = [];
  let before: ClosingReading | undefined;
  let hasClosed = false;
  for (const { reading, kind, expected, ranUp } of judged) {
    if (!isWidth(reading)) {
      before = undefined;
      hasClosed = true;
      continue;
    }
    const { date, visit, by, tool, widthMm, lengthMm, sigmaMm } = reading;
    const shown: ClosingReading = {
      date,
      visit,
      by,
      ...given({ tool }),
      widthMm,
      ...given({ lengthMm }),
      sigmaMm: 2 * sigmaMm,
      kind: kind === 'first' && hasClosed ? 'came-back' : (kinds[kind] ?? 'as-expected'),
      ...(expected && { expectedMm: Math.max(0, -2 * expected.mm), sdMm: 2 * expected.sdMm, z: expected.z }),
      ...(ranUp && { widerByMm: 2 * ranUp.mm }),
      unused: !used.has(reading),
    };
    readings.push({ ...shown, ...given({ marginMmPerDay: advanceSince(before, shown) }) });
    before = shown;
  }
  return readings;
}

function isWidth(reading: Judged['reading']): reading is WidthReading {
  return 'widthMm' in reading;
}

function advanceSince(before: ClosingReading | undefined, now: ClosingReading): number | undefined {
  if (before?.lengthMm === undefined || now.lengthMm === undefined) return undefined;
  const days = daysBetween(before.date, now.date);
  if (days <= 0 || before.lengthMm + now.lengthMm === 0) return undefined;
  return advanceBetween({ ...before, lengthMm: before.lengthMm }, { ...now, lengthMm: now.lengthMm }, days);
}

/** An ulcer's extent over all, mm. */
type Extent = Readonly<{ lengthMm: number; widthMm: number }>;

/**
 * How fast the margin of an ulcer came in between two looks, each taken as an ellipse.
 *
 * Area lost over mean perimeter: unlike per cent of area, it does not make a small ulcer look faster than a large
 * one. It overstates a long narrow one that has all but closed.
 *
 * Unit:    mm a day; below 0 the margin went out
 * Valid:   days > 0; not both of no extent
 * Error:   RangeError if both are of no extent
 * Source:  src/statistics/ellipse.ts
 * Checked: tests/healing/closing/margin-advance.test.ts
 * @example advanceBetween({ lengthMm: 20, widthMm: 20 }, { lengthMm: 14, widthMm: 14 }, 14) // → 3 / 14
 */
export function advanceBetween(before: Extent, now: Extent, days: number): number {
  const outline = ({ lengthMm, widthMm }: Extent) => ellipse(lengthMm, widthMm);
  return advanceOf(outline(before), outline(now)) / days;
}

const { rate, between, mean, deviation, target, targetSd, rough } = growthNumbers.closing;
const middle = { mm: target.value, sdMm: targetSd.value };
/** An ulcer closes alike in summer and in winter. */
const noSeason: GrowingConditions = { housingOn: () => undefined };

/**
 * Works out how the ulcers of an animal close: what each width shows, when each should have closed, what to
 * expect at the next visit. Sole, bulb and toe ulcers, in the order declared.
 *
 * Checked: tests/healing/closing/closing-of-ulcer.test.ts
 */
export const closingsOf = onceForAnimal((animal: Animal, today: CalendarDay): readonly UlcerClosing[] =>
  Object.keys(animal.lesions).flatMap((lesion) => closingOfUlcer(animal, lesion, today) ?? []),
);

/**
 * Works out how one ulcer closes. Its width decides: each margin comes in at its own pace, and the ulcer is closed when the
 * two meet.
 *
 * The same filter follows it as follows the top of a wall gap, with one line, a factor of its own, and no season.
 *
 * Shape:   an animal and a lesion → its closing; undefined where the lesion was never an ulcer
 * Unit:    mm over all, days
 * Source:  shared/growth.json `closing`
 * Checked: tests/hand-worked/ulcer.test.ts, tests/healing/closing/closing-of-ulcer.test.ts, tests/laws/closing-laws.test.ts
 */
export function closingOfUlcer(animal: Animal, lesion: string, today: CalendarDay): UlcerClosing | undefined {
  const declared = animal.lesions[lesion];
  if (declared === undefined) throw new RangeError(`no lesion ${lesion} is declared`);
  const history = ulcerHistory(animal, lesion, today);
  if (!closes(history.code) && !(closes(declared.code) && familyOf(history.code) === 'toe necrosis'))
    return undefined;
  const line = { name: lesion, rate: rate.value, deviation: deviation.value, readings: history.series };
  const prior = { mean: mean.value, variance: between.value ** 2 };
  const { courses, factor } = followLines([{ ...line, of: 'ulcer' }], noSeason, prior);
  const course = courses[0]!;
  const { departure, lastUsed } = course;
  const why = whyNoDate(history, course);
  const way = departure && lastUsed && onItsWay(lastUsed.day, departure);
  return {
    lesion,
    code: history.code,
    foot: declared.foot,
    ...given({ claw: declared.claw }),
    readings: closingReadings(course),
    factor,
    ...given({ from: lastUsed?.date }),
    forecast: forecastOf(why, way, course),
    rough: history.series.filter(isMeasured).length < rough.value,
    closed: history.closed,
    cameBack: history.cameBack,
    nextReading: (day) =>
      way === undefined || (why !== undefined && why !== 'doubtful')
        ? undefined
        : nextWidth(way, lastUsed?.tool, day),
  };
}

/** The same while a same-day notice is on it: no date is given. */
export function withoutDate(closing: UlcerClosing): UlcerClosing {
  const { forecast } = closing;
  if (forecast.outcome === 'none' && (forecast.why === 'healed' || forecast.why === 'covered'))
    return closing;
  return { ...closing, forecast: { outcome: 'none', why: 'same-day-notice' }, nextReading: () => undefined };
}

function closes(code: LesionCode): boolean {
  return lesionKinds[code].forecast === 'closing';
}

function onItsWay(from: number, departure: Departure): WayDown {
  return wayDown(from, departure, middle, noSeason);
}

function forecastOf(
  why: NoClosingDate | undefined,
  way: WayDown | undefined,
  course: LineCourse,
): ClosingForecast {
  const { pending, ifRanUp } = course;
  if (why === undefined && way !== undefined) return { outcome: 'range', ...whenOut([way]) };
  const isDated = why === 'doubtful' && !isByEyeAlone(course);
  const openedUp = isDated && pending && ifRanUp && onItsWay(pending.day, ifRanUp);
  return { outcome: 'none', why: why ?? 'no-width', ...(openedUp && { ifOpeningUp: whenOut([openedUp]) }) };
}

/** The first reason that holds. */
function whyNoDate(history: UlcerHistory, course: LineCourse): NoClosingDate | undefined {
  const { judged, pending } = course;
  if (history.state === 'healed' || history.state === 'covered') return history.state;
  if (history.joined) return 'joined';
  if (history.infected) return 'infected';
  if (familyOf(history.code) === 'toe necrosis') return 'toe-necrosis';
  if (hasTrait(history.code, 'at the toe') && history.pusOrBone) return 'toe-ulcer-with-pus-or-bone';
  const latest = judged.at(-1);
  if (latest === undefined || !isMeasured(latest.reading)) return 'no-width';
  if (latest.kind === 'held') return 'held';
  if (pending !== undefined) return 'doubtful';
  return isByEyeAlone(course) ? 'by-eye' : undefined;
}
