import type { CalendarDay } from '../record/calendar-day.js';
import type { Practice } from '../record/practice.js';
import { archiveDay } from './learning/archive-day.js';
import { type ArchivePriors, priorsFor } from './learning/priors-for.js';
import { type TrackRecord, trackRecord } from './track-record/track-record.js';

/** What all cows on file together teach: what to hold of each beforehand, and how good the dates have been. */
export interface Archive {
  readonly priors: ArchivePriors;
  readonly record: TrackRecord;
  /** The day up to which visits count in both. */
  readonly upTo: CalendarDay;
}

/**
 * What the archive teaches on a day.
 *
 * Both are as the archive stood at the end of the last quarter, so that a visit on one farm changes no other farm's book.
 *
 * Valid:   the practice whole, whichever farm is built
 * Checked: tests/growth/learning.test.ts
 */
export function archiveOn(practice: Pick<Practice, 'farms'>, today: CalendarDay): Archive {
  const upTo = archiveDay(today);
  return { priors: priorsFor(practice, today), record: trackRecord(practice, upTo), upTo };
}
