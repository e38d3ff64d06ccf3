import { blockTimeline } from '../healing/block-timeline.js';
import { episodesOf, type FollowedEpisode } from '../healing/episode.js';
import type { FixtureSpan } from '../healing/fixture-span.js';
import { gaitStanding } from '../healing/gait-standing.js';
import type { GaitScore } from '../healing/standing.js';
import { addDays, daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { herdNumbers } from '../reference/numbers.js';

/** What the last scored walk says of a day. */
export const dayKinds = [
  'lame-off-block',
  'lame-on-block',
  'lame-block-unclear',
  'not-lame-off-block',
  'not-lame-on-block',
  'not-known',
] as const;
export type DayKind = (typeof dayKinds)[number];

/** One lameness episode, from its first scored walk on. */
export interface LameDays {
  readonly slug: string;
  readonly animal: string;
  readonly from: CalendarDay;
  /** Whole days; they add up to the days from the first walk to the end of the trouble, or to the day asked about. */
  readonly days: Readonly<Record<DayKind, number>>;
}

/**
 * How many days cows were lame off the block and on it, by their scored walks.
 *
 * What it is based on: each score speaks for the days up to the next, at most 28, and the rest are not known. A cow scored
 * lame counts lame until she is scored again, whether a block goes on or comes off meanwhile; her days are only sorted by
 * whether it was on. A cow not lame on the block says nothing of the days after it came off: those are not known.
 *
 * Shape:   farm, day → one entry for each lameness episode with a scored walk
 * Unit:    whole days; a day belongs to the score and the blocks as they stood after its work
 * Source:  shared/herd.json `carriedForward`
 * Checked: tests/herd/lame-days.test.ts (by hand)
 */
export function lameDays(farm: FarmRecord, today: CalendarDay): LameDays[] {
  return farm.cases.flatMap((record) =>
    episodesOf(record.animal, today).flatMap((episode) => daysOfEpisode(farm, record, episode, today) ?? []),
  );
}

function daysOfEpisode(
  { farm }: FarmRecord,
  record: CaseRecord,
  episode: FollowedEpisode,
  today: CalendarDay,
): LameDays | undefined {
  const { animal } = record;
  const { scores } = gaitStanding(animal, farm, episode, today);
  const first = scores[0];
  if (!first) return undefined;
  const { spans } = blockTimeline(animal, today);
  const end = episode.ended ?? today;
  const days = Object.fromEntries(dayKinds.map((kind) => [kind, 0])) as Record<DayKind, number>;
  const carried = herdNumbers.figures.carriedForward.value;
  for (const [at, score] of scores.entries()) {
    const length = Math.max(0, daysBetween(score.date, scores[at + 1]?.date ?? end));
    const until = addDays(score.date, Math.min(length, carried));
    for (const piece of piecesBetween(score.date, until, spans))
      days[kindOfDay(score, spans, piece.from)] += daysBetween(piece.from, piece.until);
    days['not-known'] += Math.max(0, length - carried);
  }
  return { slug: record.slug, animal: animal.animal, from: first.date, days };
}

/** Days from the one up to, not with, the other, cut where a block may have gone on or come off. */
function piecesBetween(from: CalendarDay, until: CalendarDay, spans: readonly FixtureSpan[]) {
  const changes = spans
    .flatMap((span) => [span.from, span.lastKnownOn, ...(span.end ? [span.end.by] : [])])
    .filter((day) => day > from && day < until);
  const starts = [...new Set([from, ...changes])].sort();
  return from < until ? starts.map((start, at) => ({ from: start, until: starts[at + 1] ?? until })) : [];
}

function kindOfDay(score: GaitScore, spans: readonly FixtureSpan[], day: CalendarDay): DayKind {
  const block = saidOnWithoutEvent(score, spans) ? 'on' : blockOnDay(spans, day);
  if (score.lame) return block === 'unclear' ? 'lame-block-unclear' : `lame-${block}-block`;
  if (block === 'on') return 'not-lame-on-block';
  return block === 'off' && score.block === 'off' ? 'not-lame-off-block' : 'not-known';
}

/** The visit says she walked on a block and no block event knows of one: on until she is scored again. */
function saidOnWithoutEvent({ block, date }: GaitScore, spans: readonly FixtureSpan[]): boolean {
  return block === 'on' && !spans.some(({ from, end }) => from <= date && (!end || end.by >= date));
}

/**
 * Whether a block was on her for the day that begins after the work of a day is done.
 *
 * A block fitted that day is on, one taken off that day is not. Between the last day a lost block was certainly
 * on and the day it was found gone it is unclear, as are all days before a block first heard of when it was on already.
 *
 * Checked: tests/herd/lame-days.test.ts
 */
function blockOnDay(spans: readonly FixtureSpan[], day: CalendarDay): 'on' | 'off' | 'unclear' {
  const told = spans.map(({ from, fitted, end, lastKnownOn }) => {
    if (day < from) return fitted ? 'off' : 'unclear';
    if (end && day >= end.by) return 'off';
    return end?.dayUnknown && day >= lastKnownOn ? 'unclear' : 'on';
  });
  return told.includes('on') ? 'on' : told.includes('unclear') ? 'unclear' : 'off';
}
