import { type Correction, correctionsOf } from '../../ledger/corrections-of.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { RecordSeal } from '../../ledger/record-seal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import { recordsWithSeals } from './sealed-in-period.js';

/** One correction made in the open, with what the record said before and says since. */
export interface AmendmentInPeriod extends Correction {
  readonly record: CaseRecord | undefined;
  readonly kind: RecordSeal['kind'];
  /** The day the corrected record tells of. */
  readonly on?: CalendarDay;
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
      correctionsOf(seal).map((correction): AmendmentInPeriod => {
        const { on } = seal.now;
        return { record, kind: seal.kind, ...(on === undefined ? {} : { on }), ...correction };
      }),
    )
    .filter(({ amendment: { date } }) => isInPeriod(date, period) && date <= today)
    .sort((a, b) => (a.amendment.date < b.amendment.date ? -1 : a.amendment.date > b.amendment.date ? 1 : 0));
}
