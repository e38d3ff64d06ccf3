import type { AuditFacts } from '../facts/audit-facts.js';
import type { GapInPack } from '../gaps/audit-gap.js';
import type { SealedTable } from '../table/column.js';
import { gaitRoundsTable } from './gait-rounds.js';
import { gapsTable } from './gaps.js';
import { lameAnimalsTable } from './lame-animals.js';
import { medicinesTable } from './medicines.js';
import { peopleTable } from './people.js';
import { planTable } from './plan.js';
import { rechecksTable } from './rechecks.js';
import { referralsTable } from './referrals.js';
import { amendmentsTable, witnessTable, writtenLateTable } from './seals.js';
import { measuresOf, summaryTable } from './summary.js';
import { visitsTable } from './visits.js';

/** All tables of a pack in the order an auditor asks: page and CSV files are made of these and of nothing else. */
export function tablesOfPack(facts: AuditFacts, gaps: readonly GapInPack[]): SealedTable[] {
  return [
    summaryTable(measuresOf(facts)),
    planTable(facts),
    gaitRoundsTable(facts.rounds),
    lameAnimalsTable(facts),
    rechecksTable(facts.rechecks),
    medicinesTable(facts.medicines),
    referralsTable(facts.referrals),
    peopleTable(facts.workers),
    gapsTable(gaps),
    visitsTable(facts),
    writtenLateTable(facts.sealed, facts.seals),
    amendmentsTable(facts.amendments),
    witnessTable(facts.witnesses, facts.seals),
  ];
}
