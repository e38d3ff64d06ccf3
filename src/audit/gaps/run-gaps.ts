import { daysBetween } from '../../record/calendar-day.js';
import { liftsAFoot } from '../facts/lifts-a-foot.js';
import { type Waiting, waitingOf } from '../facts/first-seen.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import type { AuditGap } from './audit-gap.js';

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
