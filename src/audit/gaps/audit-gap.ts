import type { CalendarDay } from '../../record/calendar-day.js';
import type { CaseRecord } from '../../record/practice.js';
import type { Gap, GapGrade } from '../../schedule/gap.js';

/** What an auditor asks for and no single case can tell: ids of `audit.gap.…` in the words. */
export type AuditGapId =
  | 'plan-missing'
  | 'plan-later'
  | 'no-gait-round'
  | 'round-without-scale'
  | 'round-without-scorer'
  | 'scorer-without-training'
  | 'worker-without-training'
  | 'training-run-out'
  | 'first-seen-missing'
  | 'first-seen-by-missing'
  | 'not-lifted'
  | 'no-recheck-day'
  | 'recheck-missed'
  | 'medicine-incomplete'
  | 'tools-not-said'
  | 'tools-not-disinfected'
  | 'vet-not-asked'
  | 'end-not-written'
  | 'not-sealed'
  | 'unsealed'
  | 'written-late'
  | 'no-witness'
  | 'head-lost';

/** Where a gap can be closed; `no-longer`: only said openly, since what should have been done cannot be done now. */
export type Closable = Gap['closable'] | 'no-longer';

/** A gap an audit shows beside those of each case. */
export interface AuditGap {
  readonly id: AuditGapId;
  readonly grade: GapGrade;
  readonly closable: Closable;
  /** Absent where it is the farm's. */
  readonly record?: CaseRecord;
  readonly since?: CalendarDay;
  /** What fills its words; a list of days is worded as one. */
  readonly values: Readonly<Record<string, string | number | readonly CalendarDay[]>>;
}

/** A gap of the pack: one of a case as the schedule finds it, or one of the pack's own. */
export type GapInPack =
  { readonly own: AuditGap } | { readonly ofCase: Gap; readonly record: CaseRecord | undefined };
