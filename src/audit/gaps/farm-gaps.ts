import type { AuditFacts } from '../facts/audit-facts.js';
import { bare } from '../facts/training.js';
import type { AuditGap } from './audit-gap.js';

/** Gaps of the farm and the people: plan, rounds, training, tools. */
export function farmGaps(facts: AuditFacts): AuditGap[] {
  return [...planGaps(facts), ...roundGaps(facts), ...peopleGaps(facts), ...toolGaps(facts)];
}

function planGaps({ farm, period }: AuditFacts): AuditGap[] {
  const { plan } = farm.farm;
  if (!plan) return [{ id: 'plan-missing', grade: 'serious', closable: 'by-asking', values: {} }];
  if (plan.date <= period.to) return [];
  return [{ id: 'plan-later', grade: 'worth closing', closable: 'by-asking', since: plan.date, values: { day: plan.date } }]; // prettier-ignore
}

function roundGaps({ rounds, period }: AuditFacts): AuditGap[] {
  if (rounds.length === 0)
    return [{ id: 'no-gait-round', grade: 'serious', closable: 'next-lift', since: period.to, values: {} }];
  return rounds.flatMap(({ round, scored }): AuditGap[] => [
    ...(scored
      ? []
      : [
          {
            id: 'round-without-scale' as const,
            grade: 'serious' as const,
            closable: 'in-the-record' as const,
            since: round.date,
            values: { day: round.date },
          },
        ]),
    ...(round.by === undefined
      ? [
          {
            id: 'round-without-scorer' as const,
            grade: 'worth closing' as const,
            closable: 'by-asking' as const,
            since: round.date,
            values: { day: round.date },
          },
        ]
      : []),
  ]);
}

function peopleGaps({ workers, rounds }: AuditFacts): AuditGap[] {
  return workers.flatMap(({ name, training, lifted, last }): AuditGap[] => {
    const values = { name, day: last, count: lifted };
    const gap = { grade: 'worth closing', closable: 'in-the-record', since: last } as const;
    if (training.standing === 'run-out')
      return [{ ...gap, id: 'training-run-out', values: { ...values, from: training.validTo ?? last } }];
    if (training.standing === 'on-file') return [];
    const scored = rounds.filter(({ round }) => round.by !== undefined && bare(round.by) === bare(name));
    return lifted > 0
      ? [{ ...gap, id: 'worker-without-training', values }]
      : [
          {
            ...gap,
            id: 'scorer-without-training',
            values: { name, list: scored.map(({ round }) => round.date) },
          },
        ];
  });
}

function toolGaps({ visits }: AuditFacts): AuditGap[] {
  const lifted = visits.filter((visit) => visit.lifted);
  const of = (said: boolean | undefined) =>
    lifted.filter(({ visit }) => visit['tools-disinfected'] === said).map(({ visit }) => visit.date);
  return (
    [
      ['tools-not-said', of(undefined), 'in-the-record'],
      ['tools-not-disinfected', of(false), 'no-longer'],
    ] as const
  ).flatMap(([id, days, closable]): AuditGap[] =>
    days.length === 0
      ? []
      : [
          {
            id,
            grade: 'worth closing',
            closable,
            since: days[0]!,
            values: { count: days.length, of: lifted.length, list: [...new Set(days)] },
          },
        ],
  );
}
