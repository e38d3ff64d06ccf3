import type { LesionGrowth, JudgedReading } from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { drawingId } from './figure.js';
import type { ExpectedBar, HeldStretch, WallBar, WallStripInput } from './drawn-wall.js';
import type { Found } from '../record/visit.js';

/** Standard deviations either side that hold 80 %. */
const eightyPercent = 1.2816;

/** One bar for every visit at which this gap was looked at, with or without a length. */
function wallBars(growth: LesionGrowth, animal: Animal): WallBar[] {
  const readings = new Map(growth.readings.map((reading) => [reading.visit, reading]));
  let bareFromMm: number | undefined;
  return animal.visits.flatMap((visit, at): WallBar[] => {
    const found = visit.found?.[growth.lesion];
    const reading = readings.get(at);
    if (!reading && !looked(found)) return [];
    bareFromMm = bareFrom(bareFromMm, reading, visit['cut-back']?.includes(growth.lesion) ?? false);
    const lowered = found?.['wall-lowered'] === true;
    return [
      {
        date: visit.date,
        unused: reading?.unused ?? false,
        wallMm: found?.wall ?? growth.wall.mm,
        wallMeasured: found?.wall !== undefined,
        lowered,
        ...(found?.state !== undefined && { state: found.state }),
        ...(found?.joined !== undefined && { joined: found.joined }),
        ...(bareFromMm !== undefined && { bareFromMm }),
        ...(reading && ofReading(reading)),
      },
    ];
  });
}

function looked(found: Found | undefined): boolean {
  return found?.lifted !== false && (found?.state !== undefined || found?.joined !== undefined);
}

function ofReading(reading: JudgedReading): Partial<WallBar> {
  const { kind, topMm, expectedMm, sdMm, ranUpMm, lostMonths, tool } = reading;
  return {
    kind,
    ...(topMm !== undefined && { topMm }),
    ...(expectedMm !== undefined && { expectedMm }),
    ...(sdMm !== undefined && { expectedHalfRangeMm: eightyPercent * sdMm }),
    ...(ranUpMm !== undefined && { ranUpMm }),
    ...(lostMonths !== undefined && { lostMonths }),
    ...(tool !== undefined && { tool }),
  };
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
 *          up to three in all. Without any, the first stands six weeks after the last visit, or after `today` where that
 *          is given and later; nothing is expected on or before `today`.
 * Valid:   the growth of this animal; `place` tells the animal apart on the page, for instance its slug
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
  const range = forecast.outcome === 'range' ? forecast : undefined;
  return {
    id: drawingId(place, lesion),
    lesion,
    foot,
    claw,
    line,
    wall,
    bars,
    held: heldStretches(growth, bars),
    expected:
      range && !range.ifSoundHornFollows ? expectedBars(growth, bars, nextVisits, range.out.best, today) : [],
    ...(range && { out: range.out }),
    ifSoundHornFollows: range?.ifSoundHornFollows ?? false,
    ...(forecast.outcome === 'none' && {
      noForecast: forecast.why === 'held' && growth.heldNow?.sure === false ? 'may-be-held' : forecast.why,
    }),
    ...(forecast.outcome === 'none' && forecast.ifRanUp?.out && { ifRanUp: forecast.ifRanUp.out }),
  };
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
): ExpectedBar[] {
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
    .map(({ date, meanMm, lowMm, highMm }) => ({ date, meanMm, lowMm: Math.max(0, lowMm), highMm }));
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
