import type { RecordPath } from '../problem/problem.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { SealedRecord } from './sealed-records.js';
import type { Sealable } from './sealable.js';
import { type Amendment, amended } from '../record/measures.js';
import { type ContentDifference, contentDifferences, type Content } from './ledger-entry.js';

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
 * Whole days from what the record describes to its first seal; undefined where it is not sealed or tells no day.
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

/** One correction made in the open, with what the record said before and says since. */
export interface Correction {
  readonly amendment: Amendment;
  /** Empty where nothing was sealed before the correction, so that nobody can tell. */
  readonly changes: readonly ContentDifference[];
  /** Sealed the very day its record was first sealed. */
  readonly isSameDay: boolean;
}

/**
 * The corrections a farm's book describes: a slip put right the day it was sealed is in the ledger, and an auditor
 * is shown it.
 */
export function correctionsInBook(seal: RecordSeal): Correction[] {
  return correctionsOf(seal).filter(({ isSameDay }) => !isSameDay);
}

/** The corrections a record owns, oldest first. Two made between two seals cannot be distinguished: what changed is said of the later one. */
export function correctionsOf(seal: RecordSeal): Correction[] {
  const { sealed, now, state } = seal;
  if (now.content['amended'] === undefined) return [];
  const standing = sealed?.standing ?? [];
  const known = standing.map(({ content }) => content);
  const versions = state === 'sealed' ? known : [...known, now.content];
  return amendmentsIn(now.content).map((amendment, at) => {
    const after = versions.findIndex((version) => amendmentsIn(version).length > at);
    const [before, since] = [versions[after - 1], versions[after]];
    const told = before && since && amendmentsIn(since).length === at + 1;
    const isSameDay = after > 0 && standing[after]?.sealed === sealed?.first.sealed;
    return { amendment, changes: told ? contentDifferences(before, since) : [], isSameDay };
  });
}

function amendmentsIn(content: Content): readonly Amendment[] {
  return amended.safeParse(content['amended']).data ?? [];
}
