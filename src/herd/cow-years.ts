import { compareDays, daysBetween, type CalendarDay } from '../record/calendar-day.js';
import { type Farm, type GaitRound, herdOn } from '../record/farm.js';
import { given } from '../record/given.js';
import { herdNumbers } from '../reference/numbers.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import type { GaitScale } from '../record/words.js';
import { gaitScale } from '../reference/scales.js';
import type { Estimate } from '../statistics/estimate.js';
import { printedShare } from './printed-figure.js';

/** Days from `from` up to, not with, `until`, all with the same number of cows; undefined where nobody wrote it. */
export type HerdStretch = Readonly<{ from: CalendarDay; until: CalendarDay; cows: number | undefined }>;

/**
 * The herd's size over some days, as a run of stretches.
 *
 * Valid:   one herd map holds always; of a list, the period with the latest `from` up to the day, and a period without
 *          `cows` leaves the number unknown rather than that of the one before
 * Checked: tests/herd/cow-years.test.ts
 */
export function herdStretches(
  farm: Pick<Farm, 'herd'>,
  from: CalendarDay,
  until: CalendarDay,
): HerdStretch[] {
  const { herd } = farm;
  if (!Array.isArray(herd)) return from < until ? [{ from, until, cows: herd?.cows }] : [];
  const starts = herd.flatMap((period) => period.from ?? []).filter((day) => day > from && day < until);
  const bounds = [...new Set([from, ...starts])].sort();
  return bounds.flatMap((start, at) => {
    const end = bounds[at + 1] ?? until;
    return start < end ? [{ from: start, until: end, cows: cowsOn(farm, start) }] : [];
  });
}

/** The cows of the herd on a day; undefined where nobody wrote it. @example cowsOn({ herd: { cows: 92 } }, '2026-05-01') // → 92 */
export function cowsOn(farm: Pick<Farm, 'herd'>, day: CalendarDay): number | undefined {
  return herdOn(farm, day)?.cows;
}

/**
 * How many cows were kept for how long.
 *
 * Shape:   stretches → cow-years; what is of unknown size adds nothing
 * Unit:    cow-years of 365.25 days
 * Source:  shared/herd.json `yearDays`
 * Checked: tests/herd/cow-years.test.ts
 * @example cowYears([{ from: '2026-01-01', until: '2027-01-01', cows: 200 }]) // → 199.8631074606434
 */
export function cowYears(stretches: readonly HerdStretch[]): number {
  const cowDays = stretches.map(({ from, until, cows = 0 }) => cows * daysBetween(from, until));
  return cowDays.reduce((sum, days) => sum + days, 0) / herdNumbers.figures.yearDays.value;
}

/**
 * How many of the cows scored at a whole-herd round were lame, both numbers always together.
 *
 * The denominator is the cows scored, never the herd: cows that did not walk past were not seen. Where `scored` is
 * not written, it is the sum of the counts.
 *
 * Shape:   one round and the scale it was scored on → lame and scored
 * Source:  lame marks in shared/scales.json
 * Checked: tests/herd/lame-at-round.test.ts
 * @example lameAtRound({ date: '2026-01-20', scored: 205, counts: { 0: 130, 1: 51, 2: 20, 3: 4 } }, 'uk-0-3').lame // → 24
 */
export function lameAtRound(
  round: GaitRound,
  scale: GaitScale,
): { readonly lame: number; readonly scored: number } {
  const counts = Object.entries(round.counts);
  const sum = (from: number) =>
    counts.reduce((total, [score, cows]) => (Number(score) >= from ? total + cows : total), 0);
  return { lame: sum(gaitScale[scale].lameFrom), scored: round.scored ?? sum(-Infinity) };
}

/** One whole-herd round. */
export interface RoundShare {
  readonly date: CalendarDay;
  readonly scale: GaitScale;
  readonly lame: number;
  readonly scored: number;
  /** With Wilson's 95 % bounds; absent where too few were scored to print it. */
  readonly share?: Estimate;
}

/**
 * The share lame at each whole-herd round, in the order of their days.
 *
 * The range says what chance alone could do in as many cows. How differently two people score comes on top.
 *
 * Checked: tests/herd/lame-at-round.test.ts
 */
export function lameAtRounds(farm: Farm, today: CalendarDay): RoundShare[] {
  return (farm['gait-rounds'] ?? [])
    .filter(({ date }) => date <= today)
    .toSorted((a, b) => compareDays(a.date, b.date))
    .flatMap((round) => {
      const scale = gaitScaleOn(farm, round.date);
      if (!scale) return [];
      const { lame, scored } = lameAtRound(round, scale);
      return { date: round.date, scale, lame, scored, ...given({ share: printedShare(lame, scored) }) };
    });
}
