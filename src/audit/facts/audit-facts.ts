import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Period } from '../../record/period.js';
import type { FarmRecord } from '../../record/practice.js';
import type { CaseWork } from '../../schedule/case-work.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { AmendmentInPeriod, OutsideWitness, SealedInPeriod } from './sealed-in-period.js';
import type { LoggedVisit, RunInPeriod } from './run-in-period.js';
import type { MedicineUse } from './medicine-use.js';
import type { Recheck, Referral } from './recheck.js';
import type { RoundInPeriod } from './round-in-period.js';
import type { Worker } from './worker.js';

/** All that a farm's pack tells of a period, before it is worded. */
export interface AuditFacts {
  readonly farm: FarmRecord;
  readonly business: Business;
  readonly period: Period;
  /** The day of the pack: nothing after it is known. */
  readonly today: CalendarDay;
  readonly worked: readonly CaseWork[];
  readonly runs: readonly RunInPeriod[];
  readonly visits: readonly LoggedVisit[];
  readonly rechecks: readonly Recheck[];
  readonly medicines: readonly MedicineUse[];
  readonly referrals: readonly Referral[];
  readonly rounds: readonly RoundInPeriod[];
  readonly workers: readonly Worker[];
  readonly seals: FarmSeals;
  /** Records that tell of a day in the period. */
  readonly sealed: readonly SealedInPeriod[];
  readonly amendments: readonly AmendmentInPeriod[];
  readonly witnesses: readonly OutsideWitness[];
}
