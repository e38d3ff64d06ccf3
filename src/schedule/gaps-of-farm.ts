import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { Gap } from './gap.js';
import { withdrawalOf } from './withdrawal.js';

/** What the farm's own file does not hold and its cases need: how often she is milked, where a label counts milkings. */
export function gapsOfFarm(farmRecord: FarmRecord, today: CalendarDay): readonly Gap[] {
  const { farm, cases } = farmRecord;
  const uses = cases.flatMap(({ animal }) =>
    animal.visits
      .filter(({ date }) => date <= today)
      .flatMap(({ date, products }) => (products ?? []).map((use) => ({ animal: animal.animal, date, use }))),
  );
  const uncounted = uses.find(
    ({ use, date }) =>
      withdrawalOf(use, date, farm['milkings-a-day']).milk.outcome === 'milkings-a-day-not-known',
  );
  if (!uncounted) return [];
  return [
    {
      id: 'gap/milkings-a-day-not-given',
      grade: 'serious',
      path: ['farm'],
      values: { animal: uncounted.animal, product: uncounted.use.product, day: uncounted.date },
      closable: 'by-asking',
      since: uncounted.date,
    },
  ];
}
