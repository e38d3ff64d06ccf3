import type { ContentDifference } from '../../ledger/content-differences.js';
import { correctionsOf } from '../../ledger/corrections-of.js';
import type { LedgerEntry } from '../../ledger/ledger-entry.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import { recordsWithSeals } from './sealed-in-period.js';
import { given } from '../../record/given.js';

/** One correction made in the open, or records taken out in the open. */
export interface AmendmentInPeriod {
  /** Whose it is; undefined: the farm's. */
  readonly record: CaseRecord | undefined;
  readonly kind: LedgerEntry['kind'];
  /** The day the corrected record tells of. */
  readonly on?: CalendarDay;
  readonly date: CalendarDay;
  readonly by?: string;
  readonly why?: string;
  /** What the record said before and says now; empty where nothing was sealed before the correction. */
  readonly changes: readonly ContentDifference[];
  /** Of a withdrawal: the entries taken back. */
  readonly taken: readonly Pick<LedgerEntry, 'kind' | 'on'>[];
}

/** The corrections and withdrawals dated in a period, by their day. */
export function amendmentsInPeriod(
  farm: FarmRecord,
  seals: FarmSeals,
  period: Period,
  today: CalendarDay,
): AmendmentInPeriod[] {
  return [...corrections(farm, seals), ...withdrawals(farm, seals)]
    .filter(({ date }) => isInPeriod(date, period) && date <= today)
    .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

function corrections(farm: FarmRecord, seals: FarmSeals): AmendmentInPeriod[] {
  return recordsWithSeals(farm, seals).flatMap(({ record, seal }) =>
    correctionsOf(seal).map(({ amendment, changes }) => {
      const { on } = seal.now;
      return {
        record,
        kind: seal.kind,
        ...given({ on }),
        ...amendment,
        changes,
        taken: [],
      };
    }),
  );
}

function withdrawals(farm: FarmRecord, { ledger: { entries }, animals }: FarmSeals): AmendmentInPeriod[] {
  const slugs = new Map(
    [...animals].flatMap(([slug, { name }]) => (name === undefined ? [] : [[name, slug]])),
  );
  return entries
    .filter(({ kind }) => kind === 'withdrawn')
    .map(({ kind, sealed, animal, content, withdraws = [] }) => {
      const slug = slugs.get(animal ?? '');
      const { by, why } = content;
      return {
        record: farm.cases.find((one) => one.slug === slug),
        kind,
        date: sealed,
        ...(typeof by === 'string' ? { by } : {}),
        ...(typeof why === 'string' ? { why } : {}),
        changes: [],
        taken: withdraws.flatMap((number) => entries[number - 1] ?? []),
      };
    });
}
