import type { CalendarDay } from '../../record/calendar-day.js';
import type { Animal } from '../../record/animal.js';
import type { Farm } from '../../record/farm.js';
import { withdrawalOf } from '../withdrawal.js';
import type { Gap, GapGrade, GapId } from '../gap.js';

/**
 * Products without batch, class or withdrawal, in every visit, of closed cases too: the keeper must be able to show
 * them for years.
 *
 * A batch is missed only on what is, or may be, a medicine. A withdrawal that was given in milkings and cannot be
 * counted is the farm's gap, not the visit's.
 */
export function productGaps(animal: Animal, farm: Farm, today: CalendarDay): Gap[] {
  return [...animal.visits.entries()].flatMap(([visit, { date, products }]) =>
    date > today
      ? []
      : [...(products ?? []).entries()].flatMap(([at, use]): Gap[] => {
          const path = ['visits', visit, 'products', at];
          const { milk, meat } = withdrawalOf(use, date, farm['milkings-a-day']);
          const gap = (
            id: GapId,
            grade: GapGrade,
            closable: Gap['closable'],
            values: Record<string, string> = {},
          ): Gap => ({
            id,
            grade,
            path,
            values: { product: use.product, day: date, ...values },
            closable,
            since: date,
          });
          const missing = [milk, meat].map(({ outcome }) => outcome === 'not-recorded');
          const which = missing[0] ? (missing[1] ? 'both' : 'milk') : 'meat';
          return [
            ...(use.class === undefined
              ? [gap('gap/product-without-class', 'worth closing', 'by-asking')]
              : []),
            ...(use.batch === undefined && use.class !== 'not a medicine'
              ? [gap('gap/product-without-batch', 'worth closing', 'in-the-record')]
              : []),
            ...(missing.includes(true)
              ? [gap('gap/product-without-withdrawal', 'serious', 'by-asking', { which })]
              : []),
          ];
        }),
  );
}
