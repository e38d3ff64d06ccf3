import { type CalendarDay, addDays, dayNumber } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { Found } from '../../src/record/visit.js';
import { type Tool, claws, feet, wallLines } from '../../src/record/words.js';
import { growingConditions, lactationOn, referenceRate, seasonFrom } from '../../src/growth/growth-line.js';
import { toolError, growthNumbers } from '../../src/reference/growth-numbers.js';
import type { SeededDraws } from './seeded-draws.js';

/** How cows are measured, and where they differ from what the model takes them for. */
export interface Plan {
  readonly tool: Tool;
  readonly everyDays: number;
  readonly readings: number;
  /** Between the third reading and the fourth: the top jumps up, or does not move from the third on. */
  readonly trouble?: { readonly ranUpMm: number } | 'held';
  /** Times the growth the model expects of such cows. */
  readonly growth?: number;
  /** Added to every top read, mm. */
  readonly biasMm?: number;
  /** Times the unevenness of growth the model expects. */
  readonly uneven?: number;
  /** So many such cows are on file and have taught what to expect of one. */
  readonly onFile?: number;
  /** First read so far down, on the dorsal line: none grows out while it is read. */
  readonly startMm?: readonly [number, number];
  /** How far horn truly swings with the season, share of the rate, where it is not that of housed cows. */
  readonly swing?: number;
  /**
   * Read by the same tool as the top; left out, so that the reference length counts; a guess written down as if measured;
   * or read on standing wall beside the gap, which is so much longer: mean and SD, mm.
   */
  readonly wall?:
    | 'measured'
    | 'left out'
    | { readonly guessedSdMm: number }
    | { readonly besideMm: readonly [number, number] };
}

/** A cow with one gap: her record, and the day number on which it truly grew out. */
export interface MadeCow {
  readonly animal: Animal;
  /** Days of the readings while the gap was still in the wall, oldest first. */
  readonly read: readonly CalendarDay[];
  /** Where the top truly stood at each reading, mm. */
  readonly tops: readonly number[];
  /** Infinity where it never does. */
  readonly outOn: number;
}

/** Kept indoors, north: with the season of housed cows. */
export const housed = growingConditions({ herd: { housing: 'housed' }, hemisphere: 'north' });

const horizon = growthNumbers.forecast.horizon.value;
const month = growthNumbers.month.value;
/** Trouble begins after this reading. */
export const soundReadings = 3;

/**
 * Draws a cow as the model takes cows to be: mean of such cows, her own factor, her line's, uneven growth day by day, a
 * wall of her own, and reading error by tool. She is read until her gap has grown out.
 *
 * Why this way: whoever reads a gap that has not reached the coronet writes at least 1 mm, never 0.
 * A top is first read 5 mm to half a wall down.
 */
export function madeCow(draws: SeededDraws, plan: Plan): MadeCow {
  const line = plan.startMm === undefined ? draws.oneOf(wallLines) : 'dorsal';
  const foot = draws.oneOf(feet);
  const claw = draws.oneOf(claws);
  const first = addDays('2020-01-01', Math.floor(draws.between(0, 366)));
  const calvings = ['2017-03-01', '2018-03-10', '2019-03-20'].slice(0, Math.floor(draws.between(0, 4)));
  const numbers = growthNumbers.lines[line];
  const { ofMean, between } = growthNumbers.cow;
  const rate = referenceRate({ line, claw, foot, lactation: lactationOn({ calvings }, first) });
  const factor =
    draws.normal(draws.normal(1, ofMean.value), between.value) + draws.normal(0, numbers.deviation.value);
  const mmPerMonth = rate * factor * (plan.growth ?? 1);
  const unevenMm = (growthNumbers.uneven.value * rate * (plan.uneven ?? 1)) / Math.sqrt(month);
  const wallMm = Math.max(15, draws.normal(numbers.wall.value, numbers.wallSd.value));

  const begun = dayNumber(first);
  const monthsAfter =
    plan.swing === undefined ? seasonFrom(begun, housed).monthsAfter : swinging(begun, plan.swing);
  const after = soundReadings - 1;
  const jumpAt = draws.between(after, after + 1) * plan.everyDays;
  const standsFrom = plan.trouble === 'held' ? after * plan.everyDays : Infinity;
  const isRead = (day: number) => day % plan.everyDays === 0 && day / plan.everyDays < plan.readings;
  let top = draws.between(...(plan.startMm ?? ([5, wallMm / 2] as const)));
  let days = 0;
  let months = 0;
  const tops: number[] = [];
  while (top < wallMm && days <= horizon) {
    if (isRead(days)) tops.push(top);
    days++;
    const monthsBy = monthsAfter(days);
    if (days <= standsFrom) top += mmPerMonth * (monthsBy - months) + draws.normal(0, unevenMm);
    else if (tops.length >= plan.readings) break;
    months = monthsBy;
    if (typeof plan.trouble === 'object' && days - 1 < jumpAt && jumpAt <= days) top -= plan.trouble.ranUpMm;
  }
  const outOn = top >= wallMm ? begun + days : Infinity;
  const read = tops.map((_, at) => addDays(first, at * plan.everyDays));
  const visits = tops.map((mm, at) => ({
    date: read[at]!,
    kind: 'recheck' as const,
    by: 'Orla Venn',
    found: { a: found(draws, plan, mm, at === 0 ? wallMm : undefined) },
  }));
  const animal: Animal = {
    casefile: 1,
    animal: '1',
    calvings,
    lesions: { a: { code: 'WL', foot, claw, line } },
    visits,
  };
  return { animal, read, tops, outOn };
}

/** Growth-months after so many days where horn swings by another share than any housing's. */
function swinging(day: number, share: number): (days: number) => number {
  const turn = (2 * Math.PI) / growthNumbers.year.value;
  const phase = (days: number) => turn * (day + days - dayNumber(growthNumbers.season.peak.north));
  return (days) => (days + (share / turn) * (Math.sin(phase(days)) - Math.sin(phase(0)))) / month;
}

function found(draws: SeededDraws, plan: Plan, topMm: number, wallMm: number | undefined): Found {
  const { tool, wall = 'measured' } = plan;
  const top = Math.max(1, draws.normal(topMm + (plan.biasMm ?? 0), toolError(tool, topMm)));
  const plain: Found = { state: 'open', top, 'top-found': 'seen', tool };
  if (wallMm === undefined || wall === 'left out') return plain;
  if (typeof wall === 'object' && 'besideMm' in wall)
    return {
      ...plain,
      wall: draws.normal(draws.normal(wallMm + wall.besideMm[0], wall.besideMm[1]), toolError(tool, wallMm)),
      'wall-at': 'beside',
    };
  const sdMm = wall === 'measured' ? toolError(tool, wallMm) : wall.guessedSdMm;
  return { ...plain, wall: draws.normal(wallMm, sdMm) };
}

/** A cow whose top stays below the coronet whatever jumps, so that its trouble can be read. */
export function troubledCow(draws: SeededDraws, plan: Plan): MadeCow {
  for (;;) {
    const cow = madeCow(draws, plan);
    if (cow.read.length === plan.readings && Math.min(...cow.tops) > 1) return cow;
  }
}
