import { type AuditFacts } from '../facts/audit-facts.js';
import type { MedicinePart } from '../facts/medicine-use.js';
import { substancesOf } from '../../reference/substances.js';
import type { AuditGap } from './audit-gap.js';

/** Gaps of single records: rechecks missed, and what a medicine's line lacks beyond what its case lists. */
export function recordGaps(facts: AuditFacts): AuditGap[] {
  return [...recheckGaps(facts), ...medicineGaps(facts)];
}

function recheckGaps({ rechecks, runs }: AuditFacts): AuditGap[] {
  return rechecks
    .filter(({ standing }) => standing === 'missed')
    .map(({ record, visit, due, why }) => {
      const run = runs.find((one) => one.work.record === record && one.episode.visits.includes(visit));
      const isOpen = run !== undefined && run.episode.ended === undefined;
      const said = why.length > 0;
      return {
        id: 'recheck-missed',
        grade: said ? 'worth closing' : 'serious',
        closable: isOpen ? 'next-lift' : 'no-longer',
        record,
        since: due,
        values: { day: due, which: `${said ? 'why' : 'no-why'}-${isOpen ? 'open' : 'ended'}` },
      };
    });
}

/** Batch, class and withdrawal are the case's own gaps, and the prescriber of a substance that is a medicine. */
const ownOfCase: ReadonlySet<MedicinePart> = new Set(['batch', 'milk-withdrawal', 'meat-withdrawal']);

function medicineGaps({ medicines }: AuditFacts): AuditGap[] {
  return medicines.flatMap(({ record, use, first, missing }): AuditGap[] => {
    const isOwn = (part: MedicinePart) =>
      ownOfCase.has(part) || (part === 'prescribed-by' && substancesOf(use).length > 0);
    const parts = missing.filter((part) => !isOwn(part));
    if (parts.length === 0) return [];
    return [
      {
        id: 'medicine-incomplete',
        grade: 'worth closing',
        closable: 'by-asking',
        record,
        since: first,
        values: { product: use.product, day: first, parts: parts.join(' ') },
      },
    ];
  });
}
