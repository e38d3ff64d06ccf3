import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';
import { oneOf } from './one-of.js';

/** Milk withdrawal is given once: in days, in hours or in milkings. */
export function checkWithdrawals({ visits }: Animal): Finding[] {
  return visits.flatMap((visit, i) =>
    (visit.products ?? []).flatMap((use, at) => {
      const given = (['milk-days', 'milk-hours', 'milk-milkings'] as const).filter(
        (key) => use[key] !== undefined,
      );
      if (given.length < 2) return [];
      return [
        refuse(
          'milk-withdrawal-twice',
          ['visits', i, 'products', at, given[1] ?? ''],
          `milk withdrawal of "${use.product}" is given as ${given.join(' and ')}, expected ${oneOf(given)}`,
          'keep the one that the label or the vet gave',
          'key',
        ),
      ];
    }),
  );
}
