import type { Prior } from '../growth/what-is-known.js';
import { given } from '../record/given.js';
import type { Practice } from '../record/practice.js';
import { animalNames, nameOfFile } from '../record/same-animal.js';
import { quarterEnd, type Priors, priorsFor } from '../growth/learning/priors-for.js';
import { type TrackRecord, trackRecord } from '../growth/track-record/track-record.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { herdNumbers } from '../reference/numbers.js';
import { type CaseDigest, digestOf, type FarmDigest, whenRead } from './farm-digest.js';
import { type CaseFigures, caseFigures, withTimes } from './farm-figures.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { Estimate } from '../statistics/estimate.js';
import { printedMeanShare, spreadOf, type Spread } from './printed-figure.js';

/**
 * The farms without files that only repeat what another file of the same animal tells.
 *
 * A cow that moves often takes her file along: its visits then are on both farms, and all that is counted over
 * both would count them twice. A file is left out where every visit that lifted feet or scored her walk stands, the same, in another file of hers.
 *
 * Shape:   farms in any order → the same files; of two alike the first by name stays
 * Checked: tests/herd/same-animal.test.ts
 */
export function withoutCopies(farms: readonly FarmDigest[]): FarmDigest[] {
  const nameOf = animalNames(farms);
  const files = new Map<string, { readonly name: string; readonly one: CaseDigest }[]>();
  for (const { slug: farm, cases } of farms)
    for (const one of cases) {
      const file = { farm, slug: one.slug };
      files.set(nameOf(file), [...(files.get(nameOf(file)) ?? []), { name: nameOfFile(file), one }]);
    }
  const copies = new Set<CaseDigest>();
  for (const hers of files.values()) {
    if (hers.length < 2) continue;
    const told = hers
      .map(({ name, one }) => ({ name, one, marks: new Set(one.marks) }))
      .sort((a, b) => b.marks.size - a.marks.size || (a.name < b.name ? -1 : 1));
    for (const [at, { one, marks }] of told.entries()) {
      const kept = told.slice(0, at).filter((other) => !copies.has(other.one));
      if (marks.size > 0 && kept.some((other) => [...marks].every((mark) => other.marks.has(mark))))
        copies.add(one);
    }
  }
  if (copies.size === 0) return [...farms];
  return farms.map((farm) => ({ ...farm, cases: farm.cases.filter((one) => !copies.has(one)) }));
}

/** All that a farm's papers take from other farms, as of one day. */
export interface Pooled {
  /** What to hold of each cow beforehand. */
  readonly priors: Priors;
  /** How good the dates have been. */
  readonly record: TrackRecord;
  /** How long cases took and what came back, no case named; absent with so few farms that another could be told from it. */
  readonly figures?: CaseFigures | undefined;
  /** The day up to which visits count in all of it. */
  readonly upTo: CalendarDay;
}

/** The day up to which visits count in what farms teach one another. @example taughtUpTo('2026-11-25') // → '2026-09-30' */
export const taughtUpTo = quarterEnd;

/**
 * What all farms on file together teach on a day: as their records stood at the end of the last quarter, so that
 * a visit on one farm changes no other farm's papers until the quarter ends.
 *
 * Valid:   the practice whole, whichever farm is built; an animal that moved counts once
 * Checked: tests/herd/other-farms.test.ts, tests/growth/learning.test.ts
 */
export function pooledOn({ farms }: Pick<Practice, 'farms'>, today: CalendarDay): Pooled {
  const upTo = taughtUpTo(today);
  return pooledOf(
    farms.map((farm) => digestOf(farm, upTo)),
    upTo,
  );
}

/**
 * The same from the farms' digests, all up to one day. Each part is worked out once, when first asked for.
 *
 * Shape:   digests in any order → the same numbers
 * Checked: tests/herd/farm-digest.test.ts
 */
export function pooledOf(digests: readonly FarmDigest[], upTo: CalendarDay): Pooled {
  const farms = digests.toSorted((a, b) => (a.slug < b.slug ? -1 : 1));
  return whenRead<Pooled>({
    priors: () => priorsFor(farms, upTo),
    record: () => trackRecord(farms),
    figures: () =>
      farms.length < herdNumbers.figures.leastFarms.value
        ? undefined
        : withTimes(caseFigures(withoutCopies(farms)), (times) => ({ ...times, cases: [] })),
    upTo: () => upTo,
  });
}

/** The same as plain data, the same after JSON and back. Checked: tests/run/remembered.test.ts */
export interface PooledData extends Omit<Pooled, 'priors'> {
  readonly learned: Priors['learned'];
  /** Of a new cow; and of each file, by farm. */
  readonly everyone: Prior;
  readonly priors: Readonly<Record<string, Readonly<Record<string, Prior>>>>;
}

export function pooledAsData(
  { priors, record, figures, upTo }: Pooled,
  farms: readonly FarmDigest[],
): PooledData {
  const { learned, priorOf } = priors;
  const ofFarm = ({ slug: farm, cases }: FarmDigest): [string, PooledData['priors'][string]] => [
    farm,
    Object.fromEntries(cases.map(({ slug }) => [slug, priorOf(farm, slug)])),
  ];
  const own = Object.fromEntries(farms.map(ofFarm));
  return { learned, everyone: priorOf('', ''), priors: own, record, figures, upTo };
}

export function pooledFrom({ learned, everyone, priors, ...rest }: PooledData): Pooled {
  return { ...rest, priors: { learned, priorOf: (farm, slug) => priors[farm]?.[slug] ?? everyone } };
}

/** How good the dates of some gaps seen healed were, as far as it may be printed. */
export interface HowGood {
  /** Gaps of which at least one date was scored. */
  readonly gaps: number;
  /** Share of the dates that held the day in their range: averaged for each gap, then over gaps. */
  readonly inRange?: Estimate;
  /** Whole days the most likely day was off, of each gap on average. */
  readonly daysOff?: Spread;
}

/**
 * Source:  shared/growth.json `trackRecord`
 * Checked: tests/herd/printed-figure.test.ts, tests/words/pooled-sentences.test.ts
 * @example howGood([]) // → { gaps: 0 }
 */
export function howGood(gaps: TrackRecord['gaps']): HowGood {
  const scored = gaps.filter(({ scores }) => scores.length > 0);
  const animals = new Set(scored.map(({ farm, slug }) => `${farm}/${slug}`)).size;
  const shares = scored.map(({ scores }) => mean(scores.map((score) => score.inRange)));
  const days = scored.map(({ scores }) => Math.round(mean(scores.map((score) => score.errorDays))));
  const { few } = growthNumbers.trackRecord;
  const inRange = scored.length < few.value ? undefined : printedMeanShare(mean(shares), animals);
  return { gaps: scored.length, ...given({ inRange, daysOff: spreadOf(days, animals) }) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
