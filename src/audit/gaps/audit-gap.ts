import { type CalendarDay, daysBetween } from '../../record/calendar-day.js';
import type { CaseRecord } from '../../record/practice.js';
import type { Gap, GapGrade } from '../../schedule/gaps-of-farm.js';
import { liftsAFoot, type Waiting, waitingOf, type RunInPeriod } from '../facts/run-in-period.js';
import type { AuditFacts } from '../facts/audit-facts.js';

/** What an auditor asks for and no single case can tell: ids of `audit.gap.…` in the words. */
type AuditGapId =
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
type Closable = Gap['closable'] | 'no-longer';

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

/** Gaps of each run of trouble that the case alone does not list: first sight, first lift, next day, end, and the vet not asked. */
export function runGaps({ runs, today }: AuditFacts): AuditGap[] {
  return runs.flatMap((run) => {
    const waiting = waitingOf(run);
    const { ended } = run.episode;
    const isOpen = ended === undefined;
    return [
      ...seenGaps(run, waiting),
      // What the lesions' standing says is of the open run, the vet's list of the last: what stops work outlives its end.
      ...(isOpen ? openGaps(run, waiting, today) : []),
      ...(isOpen || ended === run.work.standing.closed?.on ? vetGaps(run) : []),
    ];
  });
}

function seenGaps({ work: { record }, lame, begins }: RunInPeriod, { seen, lifted }: Waiting): AuditGap[] {
  if (lame === 'not-recorded') return [];
  if (!seen)
    return [
      {
        id: 'first-seen-missing',
        grade: 'serious',
        closable: 'by-asking',
        record,
        since: lifted?.day ?? begins,
        values: { day: lifted?.day ?? begins },
      },
    ];
  if (seen.by !== undefined) return [];
  return [{ id: 'first-seen-by-missing', grade: 'minor', closable: 'by-asking', record, since: seen.day, values: { day: seen.day } }]; // prettier-ignore
}

function openGaps(run: RunInPeriod, { seen, lifted }: Waiting, today: string): AuditGap[] {
  const { work, visits, lame } = run;
  const { record } = work;
  if (!lifted) {
    const since = seen?.day ?? run.begins;
    return lame === 'not-recorded'
      ? []
      : [
          {
            id: 'not-lifted',
            grade: 'serious',
            closable: 'next-lift',
            record,
            since,
            values: { day: since, count: daysBetween(since, today) },
          },
        ];
  }
  const { lesions } = work.standing;
  const over = lesions.length > 0 && lesions.every(({ standing }) => isOver(standing));
  const last = visits.findLast(([, visit]) => liftsAFoot(record.animal, visit))?.[1];
  const since = last?.date ?? lifted.day;
  if (over && work.standing.gait.standing === 'sound')
    return [{ id: 'end-not-written', grade: 'minor', closable: 'in-the-record', record, since, values: { day: since } }]; // prettier-ignore
  const isSet = visits.some(([, { date, recheck }]) => recheck !== undefined && date >= since);
  if (over || isSet) return [];
  return [{ id: 'no-recheck-day', grade: 'worth closing', closable: 'in-the-record', record, since, values: { day: since } }]; // prettier-ignore
}

function isOver(standing: string): boolean {
  return standing === 'healed' || standing === 'joined' || standing === 'lasting';
}

function vetGaps({ work: { record, notices } }: RunInPeriod): AuditGap[] {
  return notices
    .filter(({ standing, asked, answered, seenAgain }) => standing && (seenAgain || (!asked && !answered)))
    .map(({ rule, urgency, raised }) => ({
      id: 'vet-not-asked',
      grade: urgency === 'notice' ? 'worth closing' : 'serious',
      closable: 'by-asking',
      record,
      since: raised,
      values: { rule, day: raised },
    }));
}
