import { episodesOf } from '../../healing/episode.js';
import type { Animal } from '../../record/animal.js';
import { daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { CaseRecord } from '../../record/practice.js';
import type { CaseWork } from '../../schedule/case-work.js';
import type { EpisodeResult } from '../../record/words.js';
import { liftsAFoot } from './run-in-period.js';
import type { Visit } from '../../record/visit.js';

/** The status of a recheck; the first that holds. */
const recheckStandings = [
  /** A foot was lifted by the day. */
  'kept',
  /** A report before the day set another. */
  'moved',
  /** The lameness episode was over by the day: nothing was left to recheck. */
  'ended',
  /** A foot was lifted after the day. */
  'kept-late',
  /** Not lifted, and work has stopped since its day or before. */
  'suspended',
  'not-due-yet',
  'missed',
] as const;
export type RecheckStanding = (typeof recheckStandings)[number];

/** One recheck somebody set, and what became of it. */
export interface Recheck {
  readonly record: CaseRecord;
  /** Position in the file of the visit that set it. */
  readonly visit: number;
  readonly set: CalendarDay;
  readonly by: string;
  readonly due: CalendarDay;
  readonly standing: RecheckStanding;
  /** Of `kept` and `kept-late`: the day, who lifted her, and days after the day set (below 0: earlier). */
  readonly lifted?: { readonly day: CalendarDay; readonly by: string; readonly days: number };
  /** Of `moved`: the day set instead. */
  readonly movedTo?: CalendarDay;
  readonly ended?: { readonly on: CalendarDay; readonly result?: EpisodeResult };
  /** What was written of her not being presented, or being put off, oldest first. */
  readonly why: readonly string[];
}

/** Rechecks that fell due: those a share may be taken of. */
export function fellDue({ standing }: Recheck): boolean {
  return standing === 'kept' || standing === 'kept-late' || standing === 'missed';
}

/**
 * The rechecks of one animal that were to be done in a period, each with what became of it.
 *
 * The rule: a recheck belongs to the period its day lies in, whenever it was set. Only a visit at which a foot was lifted
 * keeps it, after the visit that set it and in the same lameness episode. A cow not presented on the day has missed it,
 * with or without a reason, also where she was given another day: that day is a recheck of its own.
 *
 * Checked: tests/audit/rechecks.test.ts
 */
export function rechecksOf(
  { record, stop }: Pick<CaseWork, 'record' | 'stop'>,
  period: Period,
  today: CalendarDay,
): Recheck[] {
  const { animal } = record;
  return [...animal.visits.entries()].flatMap(([at, { date, recheck, by }]) =>
    recheck !== undefined && date <= today && isInPeriod(recheck, period)
      ? [
          {
            record,
            visit: at,
            set: date,
            by,
            due: recheck,
            ...becameOf(animal, at, recheck, today, stop?.since),
          },
        ]
      : [],
  );
}

function becameOf(
  animal: Animal,
  at: number,
  due: CalendarDay,
  today: CalendarDay,
  stopped: CalendarDay | undefined,
): Pick<Recheck, 'standing' | 'lifted' | 'movedTo' | 'ended' | 'why'> {
  const run = episodesOf(animal, today).find(({ visits }) => visits.includes(at));
  const later = [...animal.visits.entries()].filter(
    ([place, { date }]) => place > at && date <= today && (run === undefined || run.visits.includes(place)),
  );
  const lift = later.find(([, visit]) => liftsAFoot(animal, visit));
  const lifted = lift && {
    day: lift[1].date,
    by: lift[1].by,
    days: daysBetween(due, lift[1].date),
  };
  const between = later.filter(([place]) => lift === undefined || place < lift[0]);
  const mover = between.find(([, { recheck, kind, date }]) => recheck && kind === 'report' && date <= due);
  const movedTo = mover?.[1].recheck;
  const why = between.flatMap(
    ([place, visit]) => visit.why ?? (place === mover?.[0] ? (visit.note ?? []) : []),
  );
  if (lifted && lifted.days <= 0) return { standing: 'kept', lifted, why };
  if (movedTo !== undefined) return { standing: 'moved', movedTo, why };
  if (run?.ended !== undefined && run.ended <= due)
    return {
      standing: 'ended',
      ended: { on: run.ended, ...(run.result ? { result: run.result } : {}) },
      why,
    };
  if (lifted) return { standing: 'kept-late', lifted, why };
  if (stopped !== undefined && due >= stopped) return { standing: 'suspended', why };
  return { standing: due >= today ? 'not-due-yet' : 'missed', why };
}

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
