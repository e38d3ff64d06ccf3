import { daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import type { Period } from '../../record/period.js';
import type { Visit } from '../../record/visit.js';
import type { CaseRecord } from '../../record/practice.js';

/** One time the vet was asked about an animal, and the answer. */
export interface Referral {
  readonly record: CaseRecord;
  readonly visit: number;
  readonly asked: CalendarDay;
  readonly askedBy: string;
  readonly why: string;
  /** Feet, lesions and signs it names. */
  readonly about: readonly string[];
  /** Oldest first; the day is that of the report that brought it. */
  readonly answers: readonly {
    readonly day: CalendarDay;
    readonly answer: NonNullable<Visit['vet-answer']>;
  }[];
  /** To the first answer. */
  readonly days?: number;
}

/**
 * What the vet was asked in a period, and what still stood unanswered when it began.
 *
 * Checked: tests/audit/hand-worked.test.ts
 */
export function referralsOf(record: CaseRecord, period: Period, today: CalendarDay): Referral[] {
  const { visits } = record.animal;
  return [...visits.entries()].flatMap(([at, { date, by, vet }]): Referral[] => {
    if (!vet || vet.asked > period.to || vet.asked > today || date > today) return [];
    const answers = visits.flatMap((later) => {
      const answer = later['vet-answer'];
      if (!answer || answer.to !== vet.asked || later.date > today) return [];
      return [{ day: later.date, answer }];
    });
    const [first] = answers;
    if (vet.asked < period.from && first && first.day < period.from) return [];
    return [
      {
        record,
        visit: at,
        asked: vet.asked,
        askedBy: by,
        why: vet.why,
        about: vet.about ?? [],
        answers,
        ...(first ? { days: daysBetween(vet.asked, first.day) } : {}),
      },
    ];
  });
}
