import type { Animal } from '../../record/animal.js';
import type { ProductUse, Visit } from '../../record/visit.js';
import { substancesOf } from '../../reference/substances.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';
import { oneOf } from './one-of.js';

/** Products: milk withdrawal given once, a class that fits the active substance, and the vet's days under a wrap. */
export function checkProducts({ visits, lesions }: Animal): Finding[] {
  return visits.flatMap((visit, i) =>
    (visit.products ?? []).flatMap((use, at) => {
      const path = ['visits', i, 'products', at];
      return [
        ...milkTwice(use, path),
        ...calledNoMedicine(use, path),
        ...zeroUnderWrap(use, path, visit, lesions),
      ];
    }),
  );
}

type Path = readonly (string | number)[];

/** In days, in hours or in milkings. */
function milkTwice(use: ProductUse, path: Path): Finding[] {
  const given = (['milk-days', 'milk-hours', 'milk-milkings'] as const).filter(
    (key) => use[key] !== undefined,
  );
  if (given.length < 2) return [];
  return [
    refuse(
      'milk-withdrawal-twice',
      [...path, given[1] ?? ''],
      `milk withdrawal of "${use.product}" is given as ${given.join(' and ')}, expected ${oneOf(given)}`,
      'keep the one that the label or the vet gave',
      'key',
    ),
  ];
}

function calledNoMedicine(use: ProductUse, path: Path): Finding[] {
  const [first] = substancesOf(use);
  if (use.class !== 'not a medicine' || !first) return [];
  return [
    warn(
      'medicine-called-none',
      [...path, 'class'],
      `"${use.product}" is written as not a medicine, and ${first.name} is one (${first.group})`,
      'ask the vet; write `class: medicine`, who prescribed it and both withdrawals, or correct what is in it',
    ),
  ];
}

/** Under a wrap a label's 0 no longer holds, unless whoever prescribed it gave it so. */
function zeroUnderWrap(use: ProductUse, path: Path, visit: Visit, lesions: Animal['lesions']): Finding[] {
  const foot = lesions[use.lesion ?? '']?.foot;
  const isWrapped = visit.wraps?.some(
    (wrap) => wrap.foot === foot && (wrap.event === 'fitted' || wrap.event === 'replaced'),
  );
  const zero = (['milk-days', 'milk-hours', 'milk-milkings', 'meat-days'] as const).find(
    (key) => use[key] === 0,
  );
  if (!isWrapped || !zero || use.class === 'not a medicine' || use['prescribed-by'] !== undefined) return [];
  return [
    warn(
      'zero-days-under-wrap',
      [...path, zero],
      `"${use.product}" was put under a wrap with ${zero}: 0, and who prescribed it is not written; a label's 0 is for a foot left open`,
      'ask the vet for the days under a wrap, and write them with `prescribed-by`',
    ),
  ];
}
