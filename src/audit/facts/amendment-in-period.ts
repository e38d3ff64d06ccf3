import { type ContentDifference, contentDifferences } from '../../ledger/content-differences.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { Content } from '../../ledger/ledger-entry.js';
import type { RecordSeal } from '../../ledger/record-seal.js';
import { type Amendment, amended } from '../../record/amendment.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import { recordsWithSeals } from './sealed-in-period.js';

/** One correction made in the open, with what the record said before and says since. */
export interface AmendmentInPeriod {
  readonly record: CaseRecord | undefined;
  readonly kind: RecordSeal['kind'];
  /** The day the corrected record tells of. */
  readonly on?: CalendarDay;
  readonly amendment: Amendment;
  /** Empty where nothing was sealed before the correction, so that nobody can tell. */
  readonly changes: readonly ContentDifference[];
}

/** The corrections dated in a period, by their day. */
export function amendmentsInPeriod(
  farm: FarmRecord,
  seals: FarmSeals,
  period: Period,
  today: CalendarDay,
): AmendmentInPeriod[] {
  return recordsWithSeals(farm, seals)
    .flatMap(({ record, seal }) =>
      amendmentsOf(seal.now.content).map((amendment, at): AmendmentInPeriod => {
        const { on } = seal.now;
        return {
          record,
          kind: seal.kind,
          ...(on === undefined ? {} : { on }),
          amendment,
          changes: changesOf(seal, at),
        };
      }),
    )
    .filter(({ amendment: { date } }) => isInPeriod(date, period) && date <= today)
    .sort((a, b) => (a.amendment.date < b.amendment.date ? -1 : a.amendment.date > b.amendment.date ? 1 : 0));
}

function amendmentsOf(content: Content | undefined): readonly Amendment[] {
  return amended.safeParse(content?.['amended']).data ?? [];
}

/** Two corrections between two seals cannot be told apart: what changed is said of the later one. */
function changesOf({ sealed, now, state }: RecordSeal, at: number): readonly ContentDifference[] {
  const known = (sealed?.standing ?? []).map(({ content }) => content);
  const versions = state === 'sealed' ? known : [...known, now.content];
  const after = versions.findIndex((version) => amendmentsOf(version).length > at);
  const [before, since] = [versions[after - 1], versions[after]];
  if (!before || !since || amendmentsOf(since).length !== at + 1) return [];
  return contentDifferences(before, since);
}
