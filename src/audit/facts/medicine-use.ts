import type { CalendarDay } from '../../record/calendar-day.js';
import type { Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import type { ProductUse } from '../../record/visit.js';
import { type Withdrawal, withdrawalOf } from '../../schedule/withdrawal.js';

/** What a medicine record must hold, in the order it is asked for. */
export const medicineParts = [
  'active',
  'batch',
  'amount',
  'route',
  'given-by',
  'prescribed-by',
  'milk-withdrawal',
  'meat-withdrawal',
] as const;
export type MedicinePart = (typeof medicineParts)[number];

/** One use of a product in the period. */
export interface MedicineUse {
  readonly record: CaseRecord;
  readonly visit: number;
  /** Position among the products of that visit. */
  readonly at: number;
  readonly use: ProductUse;
  readonly first: CalendarDay;
  readonly last: CalendarDay;
  readonly withdrawal: Withdrawal;
  /** A medicine, or perhaps one: only then is anything missing. */
  readonly isMedicine: boolean;
  readonly missing: readonly MedicinePart[];
}

/**
 * The products used in a period, oldest first: any whose days reach into it, of every animal, lame or not.
 *
 * What was written as no medicine is listed and nothing is asked of it. Nothing is added to what was written.
 *
 * Checked: tests/audit/hand-worked.test.ts
 */
export function medicineUses(farm: FarmRecord, period: Period, today: CalendarDay): MedicineUse[] {
  const milkings = farm.farm['milkings-a-day'];
  return farm.cases
    .flatMap((record) =>
      [...record.animal.visits.entries()].flatMap(([visit, { date, products }]) =>
        date > today
          ? []
          : [...(products ?? []).entries()].map(([at, use]): MedicineUse => {
              const withdrawal = withdrawalOf(use, date, milkings);
              const isMedicine = use.class !== 'not a medicine';
              const missing = isMedicine
                ? medicineParts.filter((part) => isMissing(part, use, withdrawal))
                : [];
              const first = use.on ?? date;
              return {
                record,
                visit,
                at,
                use,
                first,
                last: withdrawal.lastDose,
                withdrawal,
                isMedicine,
                missing,
              };
            }),
      ),
    )
    .filter(({ first, last }) => first <= period.to && last >= period.from)
    .sort((a, b) => (a.first < b.first ? -1 : a.first > b.first ? 1 : 0));
}

function isMissing(part: MedicinePart, use: ProductUse, { milk, meat }: Withdrawal): boolean {
  if (part === 'milk-withdrawal') return milk.outcome === 'not-recorded';
  if (part === 'meat-withdrawal') return meat.outcome === 'not-recorded';
  return use[part] === undefined;
}
