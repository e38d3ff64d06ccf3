import type { ArchivePriors } from '../growth/learning/priors-for.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from './case-work.js';
import type { DueItem } from './due-item.js';
import { isTrimmers, stopWorkOf } from './stop-work.js';
import { type CaseKnown, workOutCase } from './work-out-case.js';

/**
 * All cases of a farm worked out for a day, in the order of their files, each with what the archive holds of her beforehand.
 * While work on the farm stands still, the trimmer's jobs there are suspended.
 */
export function workOutFarm(
  farm: FarmRecord,
  { priors, ...known }: Omit<CaseKnown, 'prior'> & { readonly priors: Pick<ArchivePriors, 'priorOf'> },
): CaseWork[] {
  const cases = farm.cases.map((record) =>
    workOutCase(farm, record, { ...known, prior: priors.priorOf(farm.slug, record.slug) }),
  );
  const stop = stopWorkOf(cases);
  return stop ? cases.map((one) => ({ ...one, stop, due: one.due.map(suspended) })) : cases;
}

function suspended(item: DueItem): DueItem {
  return isTrimmers(item) ? { ...item, standing: 'suspended' } : item;
}
