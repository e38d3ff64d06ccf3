import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { Gap } from './gap.js';
import { antimicrobialBaths, usesOf, writtenPeriod } from './withheld.js';
import { given } from '../record/given.js';

/** What the farm's own file lacks or says that bears on all her cases: milkings a day, an antimicrobial in the footbath. */
export function gapsOfFarm({ farm, cases }: FarmRecord, today: CalendarDay): readonly Gap[] {
  const uncounted = cases
    .flatMap(({ animal }) => usesOf(animal, today).map((use) => ({ ...use, animal: animal.animal })))
    .find(
      ({ use }) => writtenPeriod(use, 'milk', farm['milkings-a-day']).outcome === 'milkings-a-day-not-known',
    );
  const baths = antimicrobialBaths(farm).filter(({ from = '' }) => from <= today);
  return [
    ...(uncounted
      ? [
          {
            id: 'gap/milkings-a-day-not-given',
            grade: 'serious',
            path: ['farm'],
            values: { animal: uncounted.animal, product: uncounted.use.product, day: uncounted.date },
            closable: 'by-asking',
            since: uncounted.date,
          } as const,
        ]
      : []),
    ...baths.map(({ product, from }): Gap => ({
      id: 'gap/antibiotic-in-footbath',
      grade: 'serious',
      path: ['footbath'],
      values: { product, ...(from === undefined ? {} : { from, which: 'from' }) },
      closable: 'by-asking',
      ...given({ since: from }),
    })),
  ];
}
