import { type CalendarDay, daysBetween } from '../../record/calendar-day.js';
import type { CaseRecord } from '../../record/practice.js';
import type { MissingEntry, MissingGrade } from '../../schedule/missing-on-farm.js';
import { liftsAFoot, type Waiting, waitingOf, type RunInPeriod } from '../facts/run-in-period.js';
import type { AuditFacts } from '../facts/audit-facts.js';

/** What an auditor asks for and no single case can tell: ids of `audit.missing.…` in the words. */
type MissingForAuditId =
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

/** Where a missing entry can be put in; `no-longer`: only said openly, since what should have been done cannot be done now. */
type Closable = MissingEntry['closable'] | 'no-longer';

/** A missing entry an audit shows beside those of each case. */
export interface MissingForAudit {
  readonly id: MissingForAuditId;
  readonly grade: MissingGrade;
  readonly closable: Closable;
  /** Absent where it is the farm's. */
  readonly record?: CaseRecord;
  readonly since?: CalendarDay;
  /** What fills its words; a list of days is worded as one. */
  readonly values: Readonly<Record<string, string | number | readonly CalendarDay[]>>;
}

/** A missing entry of the pack: one of a case as the schedule finds it, or one of the pack's own. */
export type MissingInPack =
  | { readonly own: MissingForAudit }
  | { readonly ofCase: MissingEntry; readonly record: CaseRecord | undefined };

/** What is missing of each lameness episode that the case alone does not list: first sight, first lift, next day, end, and the vet not asked. */
export function missingOfRuns({ runs, today }: AuditFacts): MissingForAudit[] {
  return runs.flatMap((run) => {
    const waiting = waitingOf(run);
    const { ended } = run.episode;
    const isOpen = ended === undefined;
    return [
      ...missingFirstSeen(run, waiting),
      // What the lesions' standing says is of the open run, the vet's list of the last: what stops work outlives its end.
      ...(isOpen ? missingWhileOpen(run, waiting, today) : []),
      ...(isOpen || ended === run.work.standing.closed?.on ? missingVetAsked(run) : []),
    ];
  });
}

function missingFirstSeen(
  { work: { record }, lame, begins }: RunInPeriod,
  { seen, lifted }: Waiting,
): MissingForAudit[] {
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

function missingWhileOpen(run: RunInPeriod, { seen, lifted }: Waiting, today: string): MissingForAudit[] {
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

function missingVetAsked({ work: { record, notices } }: RunInPeriod): MissingForAudit[] {
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
