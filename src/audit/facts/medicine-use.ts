import type { CalendarDay } from '../../record/calendar-day.js';
import type { Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import { isMedicine } from '../../reference/substances.js';
import { type Side, type Use, usesOf, type WithheldOfAnimal, withheldOf, type WrittenPeriod, writtenPeriod } from '../../schedule/withheld.js'; // prettier-ignore

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
export interface MedicineUse extends Use {
  readonly record: CaseRecord;
  /** As written of this product. */
  readonly periods: Readonly<Record<Side, WrittenPeriod>>;
  /** What is withheld of her from its last day on, of all she was given. */
  readonly withheld: WithheldOfAnimal;
  /** A medicine, or perhaps one: only then is anything missing. */
  readonly isMedicine: boolean;
  readonly missing: readonly MedicinePart[];
}

/**
 * The products used in a period, oldest first: any whose days reach into it, of every animal, lame or not.
 *
 * What was written as no medicine, and is none by its substance, is listed and nothing is asked of it. Nothing is added to
 * what was written.
 *
 * Checked: tests/audit/hand-worked.test.ts
 */
export function medicineUses({ farm, cases }: FarmRecord, period: Period, today: CalendarDay): MedicineUse[] {
  return cases
    .flatMap((record) =>
      usesOf(record.animal, today)
        .filter(({ first, last }) => first <= period.to && last >= period.from)
        .map((one): MedicineUse => {
          const written = (side: Side) => writtenPeriod(one.use, side, farm['milkings-a-day']);
          const periods = { milk: written('milk'), meat: written('meat') };
          const medicine = isMedicine(one.use);
          return {
            ...one,
            record,
            periods,
            withheld: withheldOf(record.animal, farm, today, one.last),
            isMedicine: medicine,
            missing: medicine ? medicineParts.filter((part) => isMissing(part, one.use, periods)) : [],
          };
        }),
    )
    .sort((a, b) => (a.first < b.first ? -1 : a.first > b.first ? 1 : 0));
}

function isMissing(part: MedicinePart, use: Use['use'], { milk, meat }: MedicineUse['periods']): boolean {
  if (part === 'milk-withdrawal') return milk.outcome === 'not-recorded';
  if (part === 'meat-withdrawal') return meat.outcome === 'not-recorded';
  return use[part] === undefined;
}
