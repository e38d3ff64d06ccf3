import type {
  JudgedReading,
  LesionGrowth,
  NextReading,
  NoForecast,
  OutRange,
} from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import type { Found } from '../record/visit.js';
import { drawingId } from './figure.js';

/** A reading as it is drawn, and what stood at that visit; no `kind` where the visit gave no reading at all. Lengths in mm. */
export interface WallBar extends Partial<
  Pick<JudgedReading, 'topMm' | 'kind' | 'expectedMm' | 'ranUpMm' | 'lostMonths'>
> {
  readonly date: CalendarDay;
  /** True where the reading taught nothing: drawn lighter. */
  readonly unused: boolean;
  readonly state?: NonNullable<Found['state']>;
  /** Name of the gap this one ran into at that visit. */
  readonly joined?: string;
  /** Length of the bar: the wall measured that day, else the wall in use. */
  readonly wallMm: number;
  readonly wallMeasured: boolean;
  /** The measured wall had been lowered for comfort: drawn, not used. */
  readonly lowered: boolean;
  /** Highest point from which loose wall has been taken off; absent while it is still there. */
  readonly bareFromMm?: number;
  /** Half the 80 % range round `expectedMm`. */
  readonly expectedHalfRangeMm?: number;
}

/** A stretch of readings over which the top stood still. */
export interface HeldStretch {
  readonly from: CalendarDay;
  readonly to: CalendarDay;
}

/** All that the drawing of one wall gap shows. */
export interface WallStripInput extends Pick<LesionGrowth, 'lesion' | 'foot' | 'claw' | 'line' | 'wall'> {
  /** Unique on the page. */
  readonly id: string;
  /** Oldest first, one a visit that looked at the lesion. */
  readonly bars: readonly WallBar[];
  readonly held: readonly HeldStretch[];
  /** At most three, before the wall should be whole. */
  readonly expected: readonly Pick<NextReading, 'date' | 'lowMm' | 'highMm'>[];
  /** When it should be out; absent with a reason in `noForecast`. */
  readonly out?: OutRange<CalendarDay>;
  readonly ifSoundHornFollows: boolean;
  readonly noForecast?: NoForecast | 'may-be-held';
  /** With a doubtful reading: the range if she has run up. */
  readonly ifRanUp?: OutRange<CalendarDay>;
}

/** Standard deviations either side that hold 80 %. */
const eightyPercent = 1.2816;

/** One bar for every visit at which this gap was looked at, with or without a length. */
function wallBars({ lesion, readings, wall }: LesionGrowth, animal: Animal): WallBar[] {
  let bareFromMm: number | undefined;
  return animal.visits.flatMap((visit, at): WallBar[] => {
    const found: Found = visit.found?.[lesion] ?? {};
    const reading = readings.find((one) => one.visit === at);
    const looked = found.lifted !== false && (found.state !== undefined || found.joined !== undefined);
    if (!reading && !looked) return [];
    bareFromMm = bareFrom(bareFromMm, reading, visit['cut-back']?.includes(lesion) ?? false);
    const { kind, topMm, expectedMm, sdMm, ranUpMm, lostMonths, unused = false } = reading ?? {};
    return [
      {
        date: visit.date,
        unused,
        wallMm: found.wall ?? wall.mm,
        wallMeasured: found.wall !== undefined,
        lowered: found['wall-lowered'] === true,
        ...given({ state: found.state, joined: found.joined, bareFromMm }),
        ...given({ kind, topMm, expectedMm, ranUpMm, lostMonths }),
        ...given({ expectedHalfRangeMm: sdMm === undefined ? undefined : eightyPercent * sdMm }),
      },
    ];
  });
}

/**
 * Wall once taken off stays off while horn grows down over it. Where the gap has run further up and nothing was cut
 * back that day, the loose wall between the new top and where the old one has come to is still standing.
 */
function bareFrom(before: number | undefined, reading: JudgedReading | undefined, cutBack: boolean) {
  const top = reading?.kind === 'not-reached' ? undefined : reading?.topMm;
  if (top === undefined) return before;
  if (cutBack) return top;
  if (before === undefined) return undefined;
  return Math.max(top, reading?.kind === 'ran-up' ? (reading.expectedMm ?? before) : top);
}

/** Days between the visits a strip looks ahead to, where only the next is known. */
const daysApart = 42;
const mostExpected = 3;

/**
 * What a wall strip shows of one gap, from what was found and what was worked out.
 *
 * Shape:   `nextVisits` the planned visits, oldest first; after the last one further visits six weeks apart are supposed,
 *          up to three in all. Without any, the first is six weeks after the last visit, or after `today` where that
 *          is given and later; nothing is expected on or before `today`.
 * Valid:   the growth of this animal; `place` identifies the animal on the page, for instance its slug
 * Checked: tests/figure/wall-strip-input.test.ts
 */
export function wallStripInput(
  growth: LesionGrowth,
  animal: Animal,
  nextVisits: readonly CalendarDay[],
  place: string,
  today?: CalendarDay,
): WallStripInput {
  const { lesion, foot, claw, line, wall, forecast } = growth;
  const bars = wallBars(growth, animal);
  const strip = { id: drawingId(place, lesion), lesion, foot, claw, line, wall, bars };
  const held = heldStretches(growth, bars);
  if (forecast.outcome === 'none') {
    const { why, ifRanUp } = forecast;
    return {
      ...strip,
      held,
      expected: [],
      ifSoundHornFollows: false,
      noForecast: why === 'held' && growth.heldNow?.sure === false ? 'may-be-held' : why,
      ...(ifRanUp?.out && { ifRanUp: ifRanUp.out }),
    };
  }
  const { out, ifSoundHornFollows } = forecast;
  const expected = ifSoundHornFollows ? [] : expectedBars(growth, bars, nextVisits, out.best, today);
  return { ...strip, held, expected, out, ifSoundHornFollows };
}

/** What was seen of a gap alone: of a closed case nothing is expected, and no date given. */
export function onlySeen({ id, lesion, foot, claw, line, wall, bars, held }: WallStripInput): WallStripInput {
  return { id, lesion, foot, claw, line, wall, bars, held, expected: [], ifSoundHornFollows: false };
}

/** Only visits before the best day: after it the last bar says `out`. */
function expectedBars(
  growth: LesionGrowth,
  bars: readonly WallBar[],
  nextVisits: readonly CalendarDay[],
  best: CalendarDay | null,
  today: CalendarDay | undefined,
): WallStripInput['expected'] {
  const lastVisit = bars.at(-1)?.date;
  if (lastVisit === undefined) return [];
  const last = today !== undefined && today > lastVisit ? today : lastVisit;
  const days = nextVisits
    .filter((day) => day > last)
    .sort()
    .slice(0, mostExpected);
  while (days.length < mostExpected) days.push(addDays(days.at(-1) ?? last, daysApart));
  return days
    .filter((day) => best === null || day < best)
    .flatMap((day) => growth.nextReading(day) ?? [])
    .filter(({ meanMm }) => meanMm < growth.wall.mm)
    .map(({ date, lowMm, highMm }) => ({ date, lowMm: Math.max(0, lowMm), highMm }));
}

/**
 * Each stretch ends at a held reading and begins before the readings it left unused; the one still standing begins
 * where the test says. Stretches that touch are one.
 */
function heldStretches(growth: LesionGrowth, bars: readonly WallBar[]): HeldStretch[] {
  const read = bars.filter((bar) => bar.kind !== undefined && bar.kind !== 'not-reached');
  const found = read.flatMap((bar, at): HeldStretch[] => {
    if (bar.kind !== 'held') return [];
    let start = at;
    while (start > 0 && read[start - 1]!.unused) start--;
    if (start === at && start > 0) start--;
    return [{ from: read[start]!.date, to: bar.date }];
  });
  const latest = read.at(-1);
  if (growth.heldNow && latest) found.push({ from: growth.heldNow.since, to: latest.date });
  const merged: HeldStretch[] = [];
  for (const stretch of found.sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0))) {
    const before = merged.at(-1);
    if (before && stretch.from <= before.to)
      merged[merged.length - 1] = { from: before.from, to: stretch.to > before.to ? stretch.to : before.to };
    else merged.push(stretch);
  }
  return merged;
}
