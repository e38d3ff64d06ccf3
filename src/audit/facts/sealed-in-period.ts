import { type FarmSeals, sealsOfFarm } from '../../ledger/seals-of-farm.js';
import { emptyLedger } from '../../ledger/read-ledger.js';
import { daysToSeal, firstSealed, type RecordSeal } from '../../ledger/record-seal.js';
import { farmSealsInOrder, sealsInOrder } from '../../ledger/all-seals.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import { fixedDays } from '../../reference/intervals.js';
import { given } from '../../record/given.js';

/** One record that tells of a day in the period, with its seal. */
export interface SealedInPeriod {
  /** Whose it is; undefined: the farm's. */
  readonly record: CaseRecord | undefined;
  readonly seal: RecordSeal;
  readonly on: CalendarDay;
  readonly firstSealed?: CalendarDay;
  readonly days?: number;
  /** First sealed more than a week after what it tells of. */
  readonly isLate: boolean;
}

/** The seals of a farm that keeps no ledger. */
export function noSeals(farm: FarmRecord): FarmSeals {
  const animals = farm.cases.map(({ slug, animal }) => ({ slug, animal }));
  return sealsOfFarm({ farm: farm.farm, animals }, emptyLedger, () => undefined);
}

/** Every record that can be sealed, with whose it is. */
export function recordsWithSeals(
  farm: FarmRecord,
  seals: FarmSeals,
): { readonly record: CaseRecord | undefined; readonly seal: RecordSeal }[] {
  return [
    ...farmSealsInOrder(seals).map((seal) => ({ record: undefined, seal })),
    ...farm.cases.flatMap((record) => {
      const hers = seals.animals.get(record.slug);
      return hers ? sealsInOrder(hers).map((seal) => ({ record, seal })) : [];
    }),
  ];
}

/**
 * The records that tell of a day in the period, by that day. Declarations tell of none and are not among them.
 *
 * Source:  shared/intervals.json `written-late`
 * Checked: tests/audit/seals.test.ts
 */
export function sealedInPeriod(
  farm: FarmRecord,
  seals: FarmSeals,
  period: Period,
  today: CalendarDay,
): SealedInPeriod[] {
  return recordsWithSeals(farm, seals)
    .flatMap(({ record, seal }): SealedInPeriod[] => {
      const { on } = seal.now;
      if (on === undefined || !isInPeriod(on, period) || on > today || cannotBeSealed(seal)) return [];
      const [day, days] = [firstSealed(seal), daysToSeal(seal)];
      return [
        {
          record,
          seal,
          on,
          isLate: days !== undefined && days > fixedDays('written-late'),
          ...given({ firstSealed: day, days }),
        },
      ];
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}

/** A picture whose file is not there: it is missing, and listed as that. */
function cannotBeSealed({ kind, sealed, now }: RecordSeal): boolean {
  return kind === 'picture' && sealed === undefined && !('bytes' in now.content);
}
