import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Forecast, LesionGrowth, NoForecast } from './animal-growth.js';
import { isStillAtCoronet, onlyIfSoundHornFollows } from './at-coronet.js';
import type { GapOutlook } from './case-forecast.js';
import { gapHistory } from './gap-history.js';
import type { GrowingConditions } from './growing-conditions.js';
import { heldNow } from './held-now.js';
import type { LineFollowed } from './held-slowly.js';
import { judgedReadings } from './judged-reading.js';
import { expectedOn, nextReading } from './next-reading.js';
import { whyNoForecast } from './no-forecast.js';
import { spreading } from './spreading.js';
import type { GapPlace } from './wall-gaps.js';
import { wallLength } from './wall-length.js';
import { type WayDown, wayDown, whenOut } from './when-out.js';

/** All that was worked out on one wall gap, and its part in the forecast of the animal. */
export interface GapWorkedOut {
  readonly growth: LesionGrowth;
  readonly outlook: GapOutlook;
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
]);

/**
 * One wall gap: its readings, its forecast or why there is none, and what to expect of it next.
 *
 * Checked: tests/growth/growth-cases.test.ts
 */
export function gapGrowth(
  animal: Animal,
  place: GapPlace,
  line: LineFollowed,
  conditions: GrowingConditions,
  today: CalendarDay,
): GapWorkedOut {
  const { lesion } = place;
  const history = gapHistory(animal, lesion, today);
  const wall = wallLength(animal, place, today);
  const held = heldNow(line);
  const why = whyNoForecast(history, line, held);
  const ifSoundHornFollows = onlyIfSoundHornFollows(line);
  const { departure, lastUsed } = line;
  const way = departure && lastUsed && wayDown(lastUsed.day, departure, wall, conditions);
  const outlook = {
    lesion,
    ...(why === undefined ? {} : { why }),
    ...(way === undefined ? {} : { way }),
    ...(way === undefined || why !== undefined ? {} : { whenOut: whenOut([way]) }),
    ifSoundHornFollows,
  };
  const isOver = why === 'healed' || why === 'lasting' || why === 'joined';
  const spread = spreading(animal, lesion, today);
  const expecting = way !== undefined && (why === undefined || !voiding.has(why));
  const growth: LesionGrowth = {
    ...place,
    code: history.code,
    referenceMmPerMonth: line.line.rate,
    readings: judgedReadings(line),
    ...(lastUsed === undefined ? {} : { from: lastUsed.date }),
    wall,
    forecast: forecastOf(outlook, ifSheRanUp()),
    ...(held === undefined || why !== 'held' ? {} : { heldNow: held }),
    stillAtCoronet: !isOver && isStillAtCoronet(line),
    ...(spread === undefined || isOver ? {} : { spreading: spread }),
    expectedOn: (day) => way && expectedOn(way, day),
    nextReading: (day) => (expecting ? nextReading(way, line, day) : undefined),
  };
  return { growth, outlook };

  function ifSheRanUp(): WayDown | undefined {
    const { pending, ifRanUp } = line;
    if (why !== 'doubtful' || pending === undefined || ifRanUp === undefined) return undefined;
    return wayDown(pending.day, ifRanUp, wall, conditions);
  }
}

function forecastOf({ why, whenOut: out, ifSoundHornFollows }: GapOutlook, ranUp?: WayDown): Forecast {
  if (out !== undefined) return { outcome: 'range', ...out, ifSoundHornFollows };
  return {
    outcome: 'none',
    why: why ?? 'no-length',
    ...(ranUp === undefined ? {} : { ifRanUp: whenOut([ranUp]) }),
  };
}
