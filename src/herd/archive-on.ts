import { archiveDay } from '../growth/learning/archive-day.js';
import { type ArchivePriors, priorsFor } from '../growth/learning/priors-for.js';
import { type TrackRecord, trackRecord } from '../growth/track-record/track-record.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord, Practice } from '../record/practice.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import { type CaseFigures, caseFigures, withTimes } from './farm-figures.js';
import { withoutCopies } from './without-copies.js';

/** All that a farm's papers take from other farms, as of one day. */
export interface Archive {
  /** What to hold of each cow beforehand. */
  readonly priors: ArchivePriors;
  /** How good the dates have been. */
  readonly record: TrackRecord;
  /** How long cases took and what came back, no case named; absent with so few farms that another could be told from it. */
  readonly figures?: CaseFigures | undefined;
  /** The day up to which visits count in all of it. */
  readonly upTo: CalendarDay;
}

/**
 * What all farms on file together teach on a day: as their records stood at the end of the last quarter, so that
 * a visit on one farm changes no other farm's papers until the quarter ends. Each part is worked out once, when first asked for.
 *
 * Valid:   the practice whole, whichever farm is built; an animal that moved counts once
 * Checked: tests/herd/other-farms.test.ts, tests/growth/learning.test.ts
 */
export function archiveOn(practice: Pick<Practice, 'farms'>, today: CalendarDay): Archive {
  const upTo = archiveDay(today);
  const farms = practice.farms.map((farm) => asOf(farm, upTo));
  const priors = once(() => priorsFor({ farms }, today));
  const record = once(() => trackRecord({ farms }, upTo));
  const figures = once(() =>
    farms.length < herdNumbers.figures.leastFarms.value
      ? undefined
      : withTimes(caseFigures(withoutCopies(farms), upTo), (times) => ({ ...times, cases: [] })),
  );
  return {
    get priors() {
      return priors();
    },
    get record() {
      return record();
    },
    get figures() {
      return figures();
    },
    upTo,
  };
}

/** A farm with the visits up to a day. A file begun later stays, empty: she may be the cow of an older file. */
function asOf(farm: FarmRecord, day: CalendarDay): FarmRecord {
  return { ...farm, cases: farm.cases.map((record) => caseAsOf(record, day)) };
}

function caseAsOf(record: CaseRecord, day: CalendarDay): CaseRecord {
  const { animal } = record;
  const visits = animal.visits.filter(({ date }) => date <= day);
  return visits.length === animal.visits.length ? record : { ...record, animal: { ...animal, visits } };
}

function once<T>(work: () => T): () => T {
  let done: { readonly value: T } | undefined;
  return () => (done ??= { value: work() }).value;
}
