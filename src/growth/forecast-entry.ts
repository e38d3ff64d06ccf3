import type { Animal } from '../record/animal.js';
import { type CalendarDay, addDays } from '../record/calendar-day.js';
import type { WallLine } from '../record/words.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { AnimalGrowth, LesionGrowth, NoForecast, OutRange, ReadingKind } from './animal-growth.js';
import type { WhenOut } from './when-out.js';
import { given } from '../record/given.js';

/** One reading as given out. */
export interface ReadingEntry {
  readonly date: CalendarDay;
  readonly topMm?: number;
  readonly kind: ReadingKind;
  /** It looks like a slip: the question. */
  readonly asked?: string;
  readonly expectedMm?: number;
  readonly sdMm?: number;
  readonly z?: number;
}

/** A range as given out: days after `from`, not rounded, and dates; no dates where nobody may be told one. */
export interface RangeEntry {
  readonly from: CalendarDay;
  readonly outAfterDays: OutRange<number>;
  readonly out?: OutRange<CalendarDay>;
}

/** One wall gap with a reading, as `growdown forecast --json` gives it out. Lengths mm, variances mm². */
export interface ForecastEntry extends Partial<RangeEntry> {
  readonly farm: string;
  /** The animal's slug; its number on the farm is `number`. */
  readonly animal: string;
  readonly number: string;
  readonly lesion: string;
  readonly line: WallLine;
  readonly readings: readonly ReadingEntry[];
  /** Mean and variance of her growth factor after all readings. */
  readonly factor: { readonly mean: number; readonly variance: number };
  readonly wallMm: number;
  readonly wallSdMm: number;
  readonly wallSource: 'measured' | 'reference';
  readonly ifSoundHornFollows?: boolean;
  /** Where the top stands six weeks after `from`, without reading error. */
  readonly inSixWeeks?: { readonly mean: number; readonly variance: number };
  readonly why?: NoForecast;
  readonly held?: { readonly since: CalendarDay; readonly z?: number };
  readonly ifRanUp?: RangeEntry;
  readonly nextReading?: { readonly date: CalendarDay; readonly meanMm: number; readonly sdMm: number };
}

/** Whose growth it is, and the day she is lifted next if that is known. */
export interface EntryOf {
  readonly farm: string;
  readonly slug: string;
  readonly animal: Animal;
  readonly nextLift?: CalendarDay | undefined;
}

/**
 * The entries of one animal, sorted by lesion: one for each wall gap that has a reading.
 *
 * Checked: tests/growth/growth-cases.test.ts, tests/growth/forecast-entry.test.ts
 */
export function forecastEntries(of: EntryOf, growth: AnimalGrowth): ForecastEntry[] {
  return growth.lesions
    .filter(({ readings }) => readings.length > 0)
    .map((lesion) => forecastEntry(of, growth, lesion))
    .sort((a, b) => (a.lesion < b.lesion ? -1 : 1));
}

function forecastEntry(
  { farm, slug, animal, nextLift }: EntryOf,
  { factor }: AnimalGrowth,
  lesion: LesionGrowth,
): ForecastEntry {
  const next = nextLift === undefined ? undefined : lesion.nextReading(nextLift);
  return {
    farm,
    animal: slug,
    number: animal.animal,
    lesion: lesion.lesion,
    line: lesion.line,
    readings: lesion.readings.map(({ date, topMm, kind, takenAs, asked, expectedMm, sdMm, z }) => ({
      date,
      ...given({ topMm }),
      kind: takenAs ?? kind,
      ...given({ asked }),
      ...(expectedMm === undefined || sdMm === undefined || z === undefined ? {} : { expectedMm, sdMm, z }),
    })),
    factor: { mean: factor.mean, variance: factor.variance },
    wallMm: lesion.wall.mm,
    wallSdMm: lesion.wall.sdMm,
    wallSource: lesion.wall.source,
    ...outlook(lesion),
    ...(next === undefined ? {} : { nextReading: { date: next.date, meanMm: next.meanMm, sdMm: next.sdMm } }),
  };
}

function outlook({ forecast, heldNow, expectedOn }: LesionGrowth): Partial<ForecastEntry> {
  const sums = forecast.outcome === 'none' ? forecast.sums : forecast;
  // What is only asked about is given out as it stands, with the question beside its reading.
  const none = forecast.outcome === 'none' && sums?.out === undefined ? forecast : undefined;
  const ahead = sums && expectedOn(addDays(sums.from, growthNumbers.forecast.lookAhead.value));
  return {
    ...(sums ? { ...rangeEntry(sums), ifSoundHornFollows: sums.ifSoundHornFollows } : {}),
    ...(ahead ? { inSixWeeks: { mean: ahead.meanMm, variance: ahead.sdMm ** 2 } } : {}),
    ...(none ? { why: none.why } : {}),
    ...(none?.why === 'held' && heldNow ? { held: heldNow } : {}),
    ...(none?.ifRanUp ? { ifRanUp: rangeEntry(none.ifRanUp) } : {}),
  };
}

function rangeEntry({
  from,
  days,
  out,
}: Pick<WhenOut, 'from' | 'days'> & Partial<Pick<WhenOut, 'out'>>): RangeEntry {
  return { from, outAfterDays: days, ...(out ? { out } : {}) };
}
