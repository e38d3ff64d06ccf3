import type { ArchivePriors } from '../growth/learning/priors-for.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from './case-work.js';
import { type CaseKnown, workOutCase } from './work-out-case.js';

/** All cases of a farm worked out for a day, in the order of their files, each with what the archive holds of her beforehand. */
export function workOutFarm(
  farm: FarmRecord,
  { priors, ...known }: Omit<CaseKnown, 'prior'> & { readonly priors: Pick<ArchivePriors, 'priorOf'> },
): CaseWork[] {
  return farm.cases.map((record) =>
    workOutCase(farm, record, { ...known, prior: priors.priorOf(farm.slug, record.slug) }),
  );
}
