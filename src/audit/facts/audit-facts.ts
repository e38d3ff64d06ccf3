import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Period } from '../../record/period.js';
import type { FarmRecord } from '../../record/practice.js';
import type { Pooled } from '../../herd/pooled-on.js';
import { workOutFarm } from '../../schedule/work-out-case.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import { amendmentsInPeriod, type OutsideWitness, noSeals, sealedInPeriod } from './sealed-in-period.js';
import { loggedVisits, runsInPeriod } from './run-in-period.js';
import { medicineUses } from './medicine-use.js';
import { rechecksOf, referralsOf } from './recheck.js';
import { roundsInPeriod } from './round-in-period.js';
import { workersOf } from './worker.js';

/** What a pack is worked out from, beside the farm and the period. */
export interface AuditKnown {
  readonly business: Business;
  readonly today: CalendarDay;
  readonly priors: Pooled['priors'];
  /** Whether a picture named in the record is there; without it none is asked after. */
  readonly isPictureThere?: (file: string) => boolean;
  /** The farm's records beside its ledger; without it nothing is sealed. */
  readonly seals?: FarmSeals;
  /** Mail that named the ledger's head. */
  readonly witnesses?: readonly OutsideWitness[];
}

/**
 * What one farm's records tell an auditor of a period, as known on a day.
 *
 * What belongs: a lameness episode that had begun by the period's last day and not ended before its first; a visit, a
 * round, and a recheck to be done, by its own day; a product whose days reach into the period; a question to the vet
 * asked in it, or still open when it began. What followed is reported as known on the day of the pack.
 *
 * Checked: tests/audit/hand-worked.test.ts
 */
export function auditOfFarm(farm: FarmRecord, period: Period, known: AuditKnown) {
  const { business, today } = known;
  const worked = workOutFarm(farm, known);
  const visits = loggedVisits(farm, period, today);
  const seals = known.seals ?? noSeals(farm);
  const rounds = roundsInPeriod(farm.farm, business, period, today);
  return {
    farm,
    business,
    period,
    /** The day of the pack: nothing after it is known. */
    today,
    worked,
    runs: runsInPeriod(farm, worked, period, today),
    visits,
    rechecks: byDay(
      worked.flatMap((work) => rechecksOf(work, period, today)),
      ({ due }) => due,
    ),
    medicines: medicineUses(farm, period, today),
    referrals: byDay(
      farm.cases.flatMap((record) => referralsOf(record, period, today)),
      ({ asked }) => asked,
    ),
    rounds,
    workers: workersOf(
      business,
      visits,
      rounds.map(({ round }) => round),
    ),
    seals,
    /** Records that describe a day in the period. */
    sealed: sealedInPeriod(farm, seals, period, today),
    amendments: amendmentsInPeriod(farm, seals, period, today),
    witnesses: known.witnesses ?? [],
  };
}

/** All that a farm's pack says of a period, before it is worded. */
export type AuditFacts = ReturnType<typeof auditOfFarm>;

function byDay<T>(rows: readonly T[], dayOf: (row: T) => CalendarDay): T[] {
  return rows.toSorted((a, b) => (dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : 0));
}
