import type { RecordPath } from '../problem/problem.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { SealedRecord } from './sealed-records.js';
import type { Sealable } from './sealable.js';

/**
 * How a record stands to its seal.
 *
 * `grown` and `amended` are sealed and have something more that is not yet; `differs` was changed in silence; `gone` is
 * a picture whose file is not there any more.
 */
export type SealState = 'unsealed' | 'sealed' | 'grown' | 'amended' | 'differs' | 'gone';

/** One record as it is now beside what the chain knows of it. */
export interface RecordSeal<S extends Sealable = Sealable> {
  readonly kind: S['kind'];
  /** Its place in its file. */
  readonly path: RecordPath;
  readonly now: S;
  readonly state: SealState;
  /** Undefined where it was never sealed. */
  readonly sealed: SealedRecord | undefined;
}

/** The day a record was first sealed; undefined where it is not. */
export function firstSealed({ sealed }: RecordSeal): CalendarDay | undefined {
  return sealed?.first.sealed;
}

/**
 * Whole days from what the record tells of to its first seal; undefined where it is not sealed or tells no day.
 *
 * The day is the one the record gives now: where it was corrected, what counts is when the event is now said to be. An
 * episode is no event: she may have been lame long before anybody could write it down.
 */
export function daysToSeal(seal: RecordSeal): number | undefined {
  const [on, sealed] = [seal.now.on, firstSealed(seal)];
  return seal.kind === 'episode' || on === undefined || sealed === undefined
    ? undefined
    : daysBetween(on, sealed);
}
