import { type CalendarDay, addDays } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import { codeOn } from '../record/code-of-lesion.js';
import { isHealed, type Found } from '../record/visit.js';
import type { Lesion } from '../record/lesion.js';
import { isLeftDown } from '../record/lifting.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import {
  type LesionCode,
  claws,
  feet,
  lesionCodes,
  type Claw,
  type Foot,
  type Hemisphere,
} from '../record/words.js';
import { herdNumbers } from '../reference/numbers.js';
import type { Estimate } from '../statistics/estimate.js';
import { poissonRate } from '../statistics/poisson-rate.js';
import { cowYears, herdStretches, type HerdStretch } from './cow-years.js';
import { printed } from './printed-figure.js';

/** A lesion that was seen on a lifted foot and was not healed then, with all such looks, oldest first. */
export interface FollowedLesion {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
  readonly name: string;
  readonly lesion: Lesion;
  /** What it went by at the last visit up to the day asked about. */
  readonly code: LesionCode;
  readonly looks: readonly { readonly date: CalendarDay; readonly found: Found }[];
  /** First seen not healed. */
  readonly firstSeen: CalendarDay;
}

/**
 * The lesions of some farms as they were followed up to a day, in the order of farms, animals and declarations.
 *
 * Only lifted feet count: word from the farm that a lesion is healed is no look at it. A lesion first seen healed
 * was never followed and is left out.
 *
 * Checked: tests/herd/time-to-healed.test.ts
 */
export function followedLesions(farms: readonly FarmRecord[], today: CalendarDay): FollowedLesion[] {
  return farms.flatMap((farm) =>
    farm.cases.flatMap((record) =>
      Object.entries(record.animal.lesions).flatMap(([name, lesion]) => {
        const { visits } = record.animal;
        const looks = visits.flatMap((visit) => {
          const found = visit.found?.[name];
          if (!found || visit.date > today || isLeftDown(visit, lesion.foot, found)) return [];
          return (found.state ?? found.stage ?? found.joined) ? { date: visit.date, found } : [];
        });
        const [first] = looks;
        if (!first || isHealed(first.found)) return [];
        const upTo = visits.findLastIndex(({ date }) => date <= today);
        const code = codeOn(name, lesion, visits, upTo);
        return { farm, record, name, lesion, code, looks, firstSeen: first.date };
      }),
    ),
  );
}

/** Quarters of the year by their first months, December first: the seasons as the weather has them. */
const quarters = ['12', '03', '06', '09'] as const;
type Quarter = (typeof quarters)[number];

/** In the order of the quarters, in the north. */
const seasons = ['winter', 'spring', 'summer', 'autumn'] as const;
type Season = (typeof seasons)[number];

/** The quarter a day falls in. @example quarterOf('2026-02-28') // → '12' */
export function quarterOf(day: CalendarDay): Quarter {
  return quarters[Math.floor((Number(day.slice(5, 7)) % 12) / 3)]!;
}

/** The season a quarter is; undefined where the hemisphere is not known. @example seasonOf('12', 'south') // → 'summer' */
export function seasonOf(quarter: Quarter, hemisphere: Hemisphere | undefined): Season | undefined {
  return hemisphere && seasons[(quarters.indexOf(quarter) + (hemisphere === 'north' ? 0 : 2)) % 4];
}

/**
 * The first days of quarters between two days, both left out, from early to late.
 * @example quarterStarts('2026-01-15', '2026-07-01') // → ['2026-03-01', '2026-06-01']
 */
export function quarterStarts(after: CalendarDay, before: CalendarDay): CalendarDay[] {
  const [first, last] = [after, before].map((day) => Number(day.slice(0, 4)));
  const years = Array.from({ length: last! - first! + 1 }, (_, at) => first! + at);
  return years
    .flatMap((year) => ['03', '06', '09', '12'].map((month) => `${year}-${month}-01`))
    .filter((day) => day > after && day < before);
}

/** How many lesions were first seen in a time, and in how many cow-years of known herd size. */
export interface LesionRate {
  /** All that were first seen. */
  readonly lesions: number;
  /** Those first seen while the size of the herd is known: what the rate counts. */
  readonly counted: number;
  readonly cowYears: number;
  /** Per 100 cow-years with its exact 95 % bounds; absent where the herd is not known, or it may not be printed. */
  readonly per100?: Estimate;
}

/** A quarter of the year, over all years followed. */
interface RateOfQuarter extends LesionRate {
  readonly quarter: Quarter;
  readonly season?: Season;
  /** The same lesions by kind, in the order of the codes; only kinds that were seen. */
  readonly kinds: readonly (Pick<LesionRate, 'lesions' | 'counted'> & { readonly code: LesionCode })[];
}

export interface LesionRates {
  /** From the first visit recorded on the farm, that day included, to the day asked about. */
  readonly from: CalendarDay;
  readonly to: CalendarDay;
  readonly all: LesionRate;
  readonly byKind: readonly (LesionRate & { readonly code: LesionCode })[];
  /** Claws, and last on each foot the lesions that have none. Only places with a lesion. */
  readonly byClaw: readonly (LesionRate & { readonly foot: Foot; readonly claw?: Claw })[];
  readonly byQuarter: readonly RateOfQuarter[];
}

/**
 * Lesions first seen on a farm, by kind, claw and season, as rates per 100 cow-years.
 *
 * What it is not: the book follows the cows that were shown, so these are lesions followed, not all lesions of the herd. Time runs from
 * the farm's first recorded visit, since before it nothing could be recorded. Each lesion counts on the day it was first
 * seen, also one that broke down again. The range supposes lesions that come singly; four in one cow do not.
 *
 * Shape:   farm, day → counts and rates; undefined where no visit is recorded
 * Unit:    lesions per 100 cow-years
 * Source:  shared/herd.json `rateCowYears`, `level`
 * Checked: tests/herd/lesion-rates.test.ts (by hand)
 */
export function lesionRates(farm: FarmRecord, today: CalendarDay): LesionRates | undefined {
  const [from] = farm.cases.flatMap(({ animal }) => animal.visits.map(({ date }) => date)).sort();
  if (from === undefined || from > today) return undefined;
  const stretches = herdStretches(farm.farm, from, addDays(today, 1));
  const lesions = followedLesions([farm], today);
  const rate = rater(stretches);
  const isThere = ({ lesions: seen }: LesionRate) => seen > 0;
  const byCode = (some: typeof lesions) =>
    lesionCodes.map((code) => ({ code, ...rate(some.filter((one) => one.code === code)) })).filter(isThere);
  const onClaw = (foot: Foot, claw: Claw | undefined) =>
    rate(lesions.filter(({ lesion }) => lesion.foot === foot && lesion.claw === claw));
  return {
    from,
    to: today,
    all: rate(lesions),
    byKind: byCode(lesions),
    byClaw: feet.flatMap((foot) =>
      [...claws, undefined]
        .map((claw) => ({ foot, ...given({ claw }), ...onClaw(foot, claw) }))
        .filter(isThere),
    ),
    byQuarter: quarters.map((quarter) => {
      const season = seasonOf(quarter, farm.farm.hemisphere);
      const here = lesions.filter(({ firstSeen }) => quarterOf(firstSeen) === quarter);
      const kinds = byCode(here).map(({ code, lesions: seen, counted }) => ({
        code,
        lesions: seen,
        counted,
      }));
      return { quarter, ...given({ season }), kinds, ...rate(here, yearsIn(stretches, quarter)) };
    }),
  };
}

function yearsIn(stretches: readonly HerdStretch[], quarter: Quarter): number {
  const pieces = stretches.flatMap(({ from, until, cows }) => {
    const starts = [from, ...quarterStarts(from, until)];
    return starts.map((start, at) => ({ from: start, until: starts[at + 1] ?? until, cows }));
  });
  return cowYears(pieces.filter(({ from }) => quarterOf(from) === quarter));
}

/** Rates over the whole time, unless told the cow-years of a part of it. */
function rater(stretches: readonly HerdStretch[]) {
  const whole = cowYears(stretches);
  const isKnown = (day: CalendarDay) =>
    stretches.some(({ from, until, cows }) => cows !== undefined && from <= day && day < until);
  const { rateCowYears, level } = herdNumbers.figures;
  return (lesions: readonly FollowedLesion[], years = whole): LesionRate => {
    const known = lesions.filter(({ firstSeen }) => isKnown(firstSeen));
    const counted = known.length;
    const animals = new Set(known.map(({ record }) => record)).size;
    const exposure = years / rateCowYears.value;
    const rate = years > 0 ? poissonRate(counted, exposure, { level: level.value }) : undefined;
    const per100 = printed(rate, animals, rateCowYears.value);
    return { lesions: lesions.length, counted, cowYears: years, ...given({ per100 }) };
  };
}
