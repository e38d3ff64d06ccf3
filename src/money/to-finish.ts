import type { Animal } from '../record/animal.js';
import type { Business } from '../record/business.js';
import { type CalendarDay, daysBetween, latestDay } from '../record/calendar-day.js';
import type { OutRange } from '../growth/animal-growth.js';
import { lesionKinds } from '../reference/lesions.js';
import type { CaseWork } from '../schedule/case-work.js';
import { type Hundredths, hundredthsOf } from './hundredths.js';
import type { PieceOfWork } from './work-done.js';

/** Both ends are in. */
export type CostRange<T> = Readonly<{ low: T; high: T }>;

/** How often she is lifted now, and how often a block was fitted at it in this lameness episode. */
export interface Pace {
  readonly everyDays: number;
  /** `planned`: from her last lift to the day written for the next. `last-two`: between her last two lifts. */
  readonly from: 'planned' | 'last-two';
  readonly visits: number;
  readonly blocks: number;
}

/** What completing a case would take, or why that is not said. */
export type ToFinish =
  | {
      readonly outcome: 'range';
      /** Days from the day asked about to the early and the late end of the forecast's 80 % range. */
      readonly days: CostRange<number>;
      /** Absent where nothing is planned and she was lifted on one day only. */
      readonly pace?: Pace;
      readonly visits?: CostRange<number>;
      readonly blocks?: CostRange<number>;
      /** Visits and blocks at their prices; absent where one of them has none. */
      readonly sum?: CostRange<Hundredths>;
      /** At the coronet: only if sound horn follows. */
      readonly ifSoundHornFollows: boolean;
      /** Lesions not healed that never have a date, as of the skin: the range says nothing of them. */
      readonly without: readonly string[];
    }
  | NotToFinish;

export interface NotToFinish {
  readonly outcome: 'none';
  /** `no-date`: these lesions have none. `past`: the range lies behind. `open-end`: it reaches beyond five years. */
  readonly why: 'no-date' | 'past' | 'open-end' | 'nothing-dated';
  readonly lesions: readonly string[];
}

/**
 * What completing a case would take at the present pace: from the day asked about until the last of her gaps should be
 * out and the last of her ulcers closed.
 *
 * Each end is that of the slowest, as for all her gaps together. Visits are the days left by the days from one lift to
 * the next, rounded up, so that the last one sees it out. Why the next one planned and not the mean so far: early visits
 * lie close together, and going on so would promise too many. Blocks go on by the visit as they have in this run of
 * trouble, rounded up. Without a date for one of her gaps or ulcers nothing is given.
 *
 * Unit:    days; counts; hundredths of the currency
 * Source:  own rule
 * Checked: tests/money/to-finish.test.ts (by hand)
 */
export function toFinish(
  { prices }: Business,
  { record, standing, growth, closings }: CaseWork,
  pieces: readonly PieceOfWork[],
  today: CalendarDay,
): ToFinish {
  const open = standing.lesions.filter((one) => one.standing !== 'healed' && one.standing !== 'joined');
  const dated = open.filter(({ code, standing: word }) => {
    const { forecast } = lesionKinds[code];
    return forecast === 'growing out' || (forecast === 'closing' && word !== 'covered');
  });
  const without = open.flatMap(({ code, lesion }) => (lesionKinds[code].forecast === 'none' ? lesion : []));
  const none = (why: NotToFinish['why'], lesions: readonly string[] = []): NotToFinish => ({
    outcome: 'none',
    why,
    lesions,
  });
  if (dated.length === 0) return none('nothing-dated', without);
  const all = [...growth.lesions, ...closings];
  const forecasts = dated.map(({ lesion }) => all.find((one) => one.lesion === lesion)?.forecast);
  const noDate = dated.flatMap(({ lesion }, at) => (forecasts[at]?.outcome === 'range' ? [] : lesion));
  if (noDate.length > 0) return none('no-date', noDate);
  const ends = slowest(
    [growth.case, ...forecasts].flatMap((one) => (one?.outcome === 'range' ? one.out : [])),
  );
  if (!ends) return none('open-end');
  if (ends.high < today) return none('past');
  const days = { low: Math.max(0, daysBetween(today, ends.low)), high: daysBetween(today, ends.high) };
  const pace = paceOf(record.animal, pieces);
  return {
    outcome: 'range',
    days,
    ...(pace ? atPace(pace, days, prices) : {}),
    ifSoundHornFollows: growth.case.outcome === 'range' && growth.case.ifSoundHornFollows,
    without,
  };
}

/** The latest early day and the latest late day; undefined where one reaches beyond five years. */
function slowest(ranges: readonly OutRange<CalendarDay>[]): CostRange<CalendarDay> | undefined {
  const latest = (days: readonly (CalendarDay | null)[]) =>
    days.includes(null) ? undefined : latestDay(days.flatMap((day) => day ?? []));
  const low = latest(ranges.map(({ early }) => early));
  const high = latest(ranges.map(({ late }) => late));
  return low === undefined || high === undefined ? undefined : { low, high };
}

function paceOf(animal: Animal, pieces: readonly PieceOfWork[]): Pace | undefined {
  const visits = pieces.filter(({ what }) => what === 'visit');
  const last = visits.at(-1);
  if (!last) return undefined;
  const counts = { visits: visits.length, blocks: pieces.filter(({ what }) => what === 'block').length };
  const planned = animal.visits[last.visit]?.recheck;
  if (planned !== undefined && planned > last.date)
    return { everyDays: daysBetween(last.date, planned), from: 'planned', ...counts };
  const before = visits.findLast(({ date }) => date < last.date);
  return before && { everyDays: daysBetween(before.date, last.date), from: 'last-two', ...counts };
}

function atPace(pace: Pace, days: CostRange<number>, prices: Business['prices']) {
  const each = <T>(of: (left: number) => T): CostRange<T> => ({ low: of(days.low), high: of(days.high) });
  const visitsIn = (left: number) => roundedUp(left, pace.everyDays);
  const blocksIn = (left: number) => roundedUp(visitsIn(left) * pace.blocks, pace.visits);
  const { visit, block } = prices ?? {};
  const isPriced = visit !== undefined && (block !== undefined || pace.blocks === 0);
  const sumOf = (left: number) =>
    hundredthsOf(visitsIn(left), visit!) + hundredthsOf(blocksIn(left), block ?? 0);
  return {
    pace,
    visits: each(visitsIn),
    blocks: each(blocksIn),
    ...(isPriced ? { sum: each(sumOf) } : {}),
  };
}

/** Whole numbers divided and rounded up. */
function roundedUp(count: number, by: number): number {
  return Math.floor((count + by - 1) / by);
}
