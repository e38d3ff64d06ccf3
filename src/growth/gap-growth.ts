import type {
  CaseForecast,
  ExpectedPoint,
  Forecast,
  LesionGrowth,
  NextReading,
  NoForecast,
  WhenOut,
} from './animal-growth.js';
import { type WayDown, whenOut, wayDown, daysOn } from './when-out.js';
import type { Animal } from '../record/animal.js';
import { type GrowthOptions, wallLength } from './follow-animal.js';
import {
  gapHistory,
  heldNow,
  judgedReadings,
  isByEyeAlone,
  whyNoForecast,
  type GapPlace,
} from './wall-gaps.js';
import { type GrowingConditions, isMeasured } from './growth-line.js';
import type { LineFollowed } from './follow-lines.js';
import { growthNumbers, readingError, toolError } from '../reference/growth-numbers.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';

/** One gap's part in the forecast of the whole animal. */
interface GapOutlook {
  readonly lesion: string;
  readonly why?: NoForecast;
  readonly way?: WayDown;
  /** When it should be out, where nothing speaks against a date. */
  readonly whenOut?: WhenOut;
  readonly ifSoundHornFollows: boolean;
}

/**
 * When the last of her gaps should be out, counted from the latest of their readings.
 *
 * Valid:   gaps that are healed, or joined and followed elsewhere, do not count; no date if any other has none
 * Checked: tests/growth/case-forecast.test.ts
 */
export function caseForecast(gaps: readonly GapOutlook[]): CaseForecast {
  const counting = gaps.filter(({ why }) => why !== 'healed' && why !== 'joined');
  const ways = counting.flatMap(({ way, why }) => (why === undefined && way !== undefined ? way : []));
  const only = counting.length === 1 ? counting[0]?.whenOut : undefined;
  if (ways.length === 0 || ways.length < counting.length) {
    const silent = counting.length === 0 ? gaps : counting;
    const because = silent.flatMap(({ lesion, why }) => (why === undefined ? [] : { lesion, why }));
    return { outcome: 'none', because };
  }
  const ifSoundHornFollows = counting.some((gap) => gap.ifSoundHornFollows);
  return { outcome: 'range', ...(only ?? whenOut(ways)), ifSoundHornFollows };
}

/** These void what growth alone would bring: no next reading is expected. */
const voiding: ReadonlySet<NoForecast> = new Set<NoForecast>([
  'healed',
  'lasting',
  'joined',
  'infected',
  'bone-or-necrosis',
  'ran-up-unmeasured',
  'not-reached',
  'same-day-notice',
]);

/**
 * Sets a gap on its way down from its last used reading, and finds what speaks against a date; `whyBeside`: the same, were no
 * same-day notice on it.
 */
export function gapOnItsWay(
  animal: Animal,
  place: GapPlace,
  line: LineFollowed,
  conditions: GrowingConditions,
  { today, underNotice }: Omit<GrowthOptions, 'prior'>,
) {
  const history = gapHistory(animal, place.lesion, today);
  const wall = wallLength(animal, place, today);
  const held = heldNow(line);
  const whyBeside = whyNoForecast(history, line, held, false);
  const why = underNotice?.has(place.lesion) ? whyNoForecast(history, line, held, true) : whyBeside;
  const { departure, lastUsed } = line;
  const way = departure && lastUsed && wayDown(lastUsed.day, departure, wall, conditions);
  return { history, wall, ...given({ held, why, whyBeside, way }) };
}

/**
 * One wall gap: its readings, its forecast or why there is none, what to expect of it next, and its part in the forecast of
 * the animal.
 *
 * Checked: tests/growth/growth-cases.test.ts
 */
export function gapGrowth(
  animal: Animal,
  place: GapPlace,
  line: LineFollowed,
  conditions: GrowingConditions,
  options: Omit<GrowthOptions, 'prior'>,
): { readonly growth: LesionGrowth; readonly outlook: GapOutlook } {
  const { lesion } = place;
  const found = gapOnItsWay(animal, place, line, conditions, options);
  const { history, wall, held, whyBeside, way } = found;
  const latest = line.judged.findLast(({ reading }) => isMeasured(reading));
  const asked = [...new Set([latest?.reading.asked, wall.measured?.asked])].filter(Boolean).join(' ');
  const isInDoubt = found.why === undefined && asked !== '';
  const why = isInDoubt ? 'doubtful' : found.why;
  const ifSoundHornFollows = onlyIfSoundHornFollows(line);
  const out = way && why === undefined ? whenOut([way]) : undefined;
  const isOver = why === 'healed' || why === 'lasting' || why === 'joined';
  const expecting = way !== undefined && (why === undefined || !voiding.has(why));
  const growth: LesionGrowth = {
    ...place,
    code: history.code,
    referenceMmPerMonth: line.line.rate,
    readings: judgedReadings(line),
    ...given({ from: line.lastUsed?.date }),
    wall,
    forecast: out ? { outcome: 'range', ...out, ifSoundHornFollows } : noForecast(),
    ...given({
      asked: asked || undefined,
      heldNow: whyBeside === 'held' ? held : undefined,
    }),
    stillAtCoronet: !isOver && isStillAtCoronet(line),
    ...given({ spreading: isOver ? undefined : spreading(animal, lesion, options.today) }),
    expectedOn: (day) => way && expectedOn(way, day),
    nextReading: (day) => (expecting ? nextReading(way, line, day) : undefined),
  };
  return { growth, outlook: { lesion, ...given({ why, way, whenOut: out }), ifSoundHornFollows } };

  function noForecast(): Forecast {
    const untold = sumsUntold();
    const sums = untold && whenOut([untold]);
    const up = ifSheRanUp();
    const ranUp = up && whenOut([up]);
    return {
      outcome: 'none',
      why: why ?? 'no-length',
      ...(sums && {
        sums: { from: sums.from, days: sums.days, ...(isInDoubt && { out: sums.out }), ifSoundHornFollows },
      }),
      ...(ranUp && { ifRanUp: isByEyeAlone(line) ? { from: ranUp.from, days: ranUp.days } : ranUp }),
    };
  }

  function sumsUntold(): WayDown | undefined {
    if (isInDoubt) return way;
    if (why !== 'by-eye' && why !== 'same-day-notice') return undefined;
    return whyBeside === undefined || whyBeside === 'by-eye' ? way : undefined;
  }

  function ifSheRanUp(): WayDown | undefined {
    if (isInDoubt) return latest?.kind === 'ran-up' ? way : undefined;
    const { pending, ifRanUp } = line;
    if (why !== 'doubtful' || pending === undefined || ifRanUp === undefined) return undefined;
    return wayDown(pending.day, ifRanUp, wall, conditions);
  }
}

/**
 * Whether the clock of a line started at the coronet and no reading since shows that horn has come away from it.
 * Then a date holds only if sound horn follows.
 *
 * Valid:   the latest used reading, with its own reading error
 * Source:  shared/growth.json `tests.awayFromCoronet`
 * Checked: tests/growth/growth-cases.test.ts
 */
function onlyIfSoundHornFollows({ start, lastUsed }: LineFollowed): boolean {
  if (start?.mm !== 0 || lastUsed === undefined) return false;
  return lastUsed.mm < growthNumbers.tests.awayFromCoronet.value * lastUsed.sigmaMm;
}

/** Whether the last two readings both found the gap at the coronet: no sound horn has come yet. */
function isStillAtCoronet({ judged }: LineFollowed): boolean {
  const lastTwo = judged.filter(({ reading }) => isMeasured(reading)).slice(-2);
  return lastTwo.length === 2 && lastTwo.every(({ reading }) => reading.mm === 0);
}

/**
 * Whether the width of a gap has grown since it was last measured, beyond what readings can tell.
 *
 * A gap may spread round the claw while its top comes down as it should.
 *
 * Unit:    mm
 * Valid:   the last two widths up to the day; each with the error of its tool, and of another reader where there was one
 * Source:  shared/growth.json `tests.tellApart`: 2√2 σ where both were read alike
 * Checked: tests/growth/spreading.test.ts
 */
function spreading(animal: Animal, lesion: string, upTo: CalendarDay): LesionGrowth['spreading'] {
  const widths = animal.visits.flatMap((visit) => {
    const found = visit.found?.[lesion];
    if (found?.width === undefined || visit.date > upTo) return [];
    return { date: visit.date, by: visit.by, mm: found.width, tool: found.tool };
  });
  const [before, now] = [widths.at(-2), widths.at(-1)];
  if (before === undefined || now === undefined) return undefined;
  const first = widths[0]!.by;
  const error = ({ tool, mm, by }: typeof now) => readingError(tool, mm, by === first);
  const tells = growthNumbers.tests.tellApart.value * Math.hypot(error(before), error(now));
  if (now.mm - before.mm <= tells) return undefined;
  return { since: before.date, fromMm: before.mm, toMm: now.mm };
}

/**
 * Where the top should be on a later day, its SD without reading error.
 *
 * Unit:    mm
 * Valid:   undefined before the last used reading
 */
function expectedOn(way: WayDown, date: CalendarDay): ExpectedPoint | undefined {
  const days = daysOn(way, date);
  if (days < 0) return undefined;
  const { mean, variance } = way.topAfter(days);
  return { date, meanMm: mean, sdMm: Math.sqrt(variance) };
}

/**
 * What a reading on a later day should show: mean and SD with the error of the tool last used, the 80 %
 * range, and the mark below which the top is higher than growth lets it be.
 *
 * Unit:    mm; range and mark not below 0, where a mark of 0 says that no reading can be that low
 * Source:  shared/growth.json `forecast.rangeSds`, `tests.doubtfulBelow`
 * Checked: tests/growth/next-reading.test.ts
 */
function nextReading(way: WayDown, line: LineFollowed, date: CalendarDay): NextReading | undefined {
  const point = expectedOn(way, date);
  if (point === undefined) return undefined;
  const tool = line.judged.findLast(({ reading }) => isMeasured(reading))?.reading.tool;
  const { meanMm } = point;
  const sdMm = Math.hypot(point.sdMm, toolError(tool, meanMm));
  const half = growthNumbers.forecast.rangeSds.value * sdMm;
  return {
    date,
    meanMm,
    sdMm,
    lowMm: Math.max(0, meanMm - half),
    highMm: meanMm + half,
    alarmMm: Math.max(0, meanMm + growthNumbers.tests.doubtfulBelow.value * sdMm),
  };
}
