import {
  missingOnFarm,
  type MissingGrade,
  type MissingEntry,
  type MissingId,
} from '../../schedule/missing-on-farm.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { type MissingInPack, type MissingForAudit, missingOfRuns } from './missing-for-audit.js';
import { largest } from '../../statistics/estimate.js';
import { entriesWitnessed } from '../facts/sealed-in-period.js';
import { fixedDays, intervalsInForce } from '../../reference/intervals.js';
import type { MedicinePart } from '../facts/medicine-use.js';
import { substancesOf } from '../../reference/substances.js';
import {
  type MissingContext,
  missingOfProducts,
  missingProducts,
  missingWhyMissed,
  missingPainRelief,
  missingVetAnswers,
} from '../../schedule/missing-in-case.js';
import { withoutProduct } from '../../schedule/withheld.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import { bare } from '../facts/worker.js';

/**
 * The missing entries the book lists for each case, as far as they belong to the period; and of runs that have ended, which the
 * book no longer lists, those an auditor still asks for: pain relief, the vet's answer, why she was not presented.
 *
 * The rule: an entry belongs where its visit is of a run that belongs, a product's where its days reach into the period, how
 * she left where that day lies in it, and none that came up after the period's last day. A recheck passed is left out
 * here: the pack has each missed recheck.
 */
function missingInCases(facts: AuditFacts): MissingInPack[] {
  const { farm, runs, worked, period, today } = facts;
  return worked.flatMap((work) => {
    const hers = runs.filter((run) => run.work === work);
    const ended = hers.filter(({ episode }) => episode.ended !== undefined);
    const belongs = ({ id, path: [of, visit], since }: MissingEntry): boolean => {
      if (id === 'gap/recheck-passed' || (since !== undefined && since > period.to)) return false;
      if (of === 'episodes') return since !== undefined && since >= period.from;
      return hers.some(
        ({ visits }) => typeof visit !== 'number' || visits.some(([place]) => place === visit),
      );
    };
    const given = [
      ...missingOfProducts(
        facts.medicines.filter(({ record }) => record === work.record),
        farm.farm,
      ),
      ...missingProducts(
        withoutProduct(work.record.animal, today).filter(({ day }) => day >= period.from && day <= period.to),
      ),
    ];
    const ofCase = work.missing.filter(({ id }) => !ofPeriod.has(id));
    return [
      ...[...ofCase, ...ended.flatMap((run) => missingInEnded(facts, run))].filter(belongs),
      ...given.filter(({ since = '' }) => since <= period.to),
    ].map((entry) => ({ ofCase: entry, record: work.record }));
  });
}

/** What is missing of what was given: worked out anew of what lies in the period. */
const ofPeriod: ReadonlySet<MissingId> = new Set([
  'gap/product-without-batch',
  'gap/product-without-class',
  'gap/product-without-withdrawal',
  'gap/medicine-without-prescriber',
  'gap/treated-without-product',
]);

function missingInEnded({ farm: { farm }, business, today }: AuditFacts, run: RunInPeriod): MissingEntry[] {
  const { standing, record } = run.work;
  const context: MissingContext = {
    animal: record.animal,
    farm,
    standing: { ...standing, gait: { ...standing.gait, scores: run.scores } },
    interval: intervalsInForce(farm, business),
    open: run.visits,
    today,
  };
  return [...missingPainRelief(context), ...missingVetAnswers(context), ...missingWhyMissed(context)];
}

/** What is missing of single records: rechecks missed, and what a medicine's line lacks beyond what its case lists. */
function missingOfRecords(facts: AuditFacts): MissingForAudit[] {
  return [...missingRechecks(facts), ...missingOfMedicines(facts)];
}

function missingRechecks({ rechecks, runs }: AuditFacts): MissingForAudit[] {
  return rechecks
    .filter(({ standing }) => standing === 'missed')
    .map(({ record, visit, due, why }) => {
      const run = runs.find((one) => one.work.record === record && one.episode.visits.includes(visit));
      const isOpen = run !== undefined && run.episode.ended === undefined;
      const said = why.length > 0;
      return {
        id: 'recheck-missed',
        grade: said ? 'worth closing' : 'serious',
        closable: isOpen ? 'next-lift' : 'no-longer',
        record,
        since: due,
        values: { day: due, which: `${said ? 'why' : 'no-why'}-${isOpen ? 'open' : 'ended'}` },
      };
    });
}

/** Batch, class and withdrawal are missing entries of the case's own, and the prescriber of a substance that is a medicine. */
const ownOfCase: ReadonlySet<MedicinePart> = new Set(['batch', 'milk-withdrawal', 'meat-withdrawal']);

function missingOfMedicines({ medicines }: AuditFacts): MissingForAudit[] {
  return medicines.flatMap(({ record, use, first, missing }): MissingForAudit[] => {
    const isOwn = (part: MedicinePart) =>
      ownOfCase.has(part) || (part === 'prescribed-by' && substancesOf(use).length > 0);
    const parts = missing.filter((part) => !isOwn(part));
    if (parts.length === 0) return [];
    return [
      {
        id: 'medicine-incomplete',
        grade: 'worth closing',
        closable: 'by-asking',
        record,
        since: first,
        values: { product: use.product, day: first, parts: parts.join(' ') },
      },
    ];
  });
}

const order: readonly MissingGrade[] = ['serious', 'worth closing', 'minor'];

/** What the records of the period do not hold and an audit asks for: serious first, the farm's before the animals', then by day. */
export function missingInPack(facts: AuditFacts): MissingInPack[] {
  const { farm, period, today } = facts;
  const ownFarm = missingOnFarm(farm, today)
    .filter(({ since = '' }) => since <= period.to)
    .map((ofCase): MissingInPack => ({ ofCase, record: undefined }));
  const own = [
    ...missingOfFarm(facts),
    ...missingOfRuns(facts),
    ...missingOfRecords(facts),
    ...missingSeals(facts),
  ]
    .filter(({ since = '', id }) => since <= period.to || id === 'plan-later' || id === 'training-run-out')
    .map((entry): MissingInPack => ({ own: entry }));
  return [...ownFarm, ...own, ...missingInCases(facts)].sort(
    (a, b) => order.indexOf(gradeOf(a)) - order.indexOf(gradeOf(b)) || compare(animalOf(a), animalOf(b)),
  );
}

/** How much a missing entry of the pack costs. */
export function gradeOf(entry: MissingInPack): MissingGrade {
  return 'own' in entry ? entry.own.grade : entry.ofCase.grade;
}

function animalOf(entry: MissingInPack): string {
  return ('own' in entry ? entry.own.record : entry.record)?.slug ?? '';
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** What is missing of the seals: nothing sealed, some not sealed, some written late, and no mail that bears witness to them. */
function missingSeals({ seals, sealed, witnesses, period }: AuditFacts): MissingForAudit[] {
  const since = period.from;
  if (!seals.head)
    return [{ id: 'not-sealed', grade: 'worth closing', closable: 'in-the-record', since, values: {} }];
  const late = sealed.filter(({ isLate }) => isLate);
  const unsealed = sealed.filter(({ firstSealed }) => firstSealed === undefined);
  const inLedger = sealed.flatMap(({ seal }) => seal.sealed?.first.number ?? []);
  const last = largest(inLedger, 0);
  const witnessed = largest(
    witnesses.map((one) => entriesWitnessed(seals, one) ?? 0),
    0,
  );
  const lost = witnesses.filter((one) => entriesWitnessed(seals, one) === undefined);
  return [
    ...entry('head-lost', 'serious', 'no-longer', lost.length > 0, {
      list: lost.map(({ day }) => day),
    }),
    ...entry('unsealed', 'worth closing', 'in-the-record', unsealed.length > 0, {
      count: unsealed.length,
      of: sealed.length,
    }),
    ...entry('written-late', 'worth closing', 'no-longer', late.length > 0, {
      count: late.length,
      of: sealed.length - unsealed.length,
      days: fixedDays('written-late'),
    }),
    ...entry('no-witness', 'minor', 'in-the-record', inLedger.length > 0 && witnessed < last, {}),
  ];

  function entry(
    id: MissingForAudit['id'],
    grade: MissingForAudit['grade'],
    closable: MissingForAudit['closable'],
    holds: boolean,
    values: MissingForAudit['values'],
  ): MissingForAudit[] {
    return holds ? [{ id, grade, closable, since, values }] : [];
  }
}

/** What is missing of the farm and the people: plan, rounds, training, tools. */
function missingOfFarm(facts: AuditFacts): MissingForAudit[] {
  return [
    ...missingPlan(facts),
    ...missingOfRounds(facts),
    ...missingTraining(facts),
    ...missingOfTools(facts),
  ];
}

function missingPlan({ farm, period }: AuditFacts): MissingForAudit[] {
  const { plan } = farm.farm;
  if (!plan) return [{ id: 'plan-missing', grade: 'serious', closable: 'by-asking', values: {} }];
  if (plan.date <= period.to) return [];
  return [{ id: 'plan-later', grade: 'worth closing', closable: 'by-asking', since: plan.date, values: { day: plan.date } }]; // prettier-ignore
}

function missingOfRounds({ rounds, period }: AuditFacts): MissingForAudit[] {
  if (rounds.length === 0)
    return [{ id: 'no-gait-round', grade: 'serious', closable: 'next-lift', since: period.to, values: {} }];
  return rounds.flatMap(({ round, scored }): MissingForAudit[] => [
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

function missingTraining({ workers, rounds }: AuditFacts): MissingForAudit[] {
  return workers.flatMap(({ name, training, lifted, last }): MissingForAudit[] => {
    const values = { name, day: last, count: lifted };
    const entry = { grade: 'worth closing', closable: 'in-the-record', since: last } as const;
    if (training.standing === 'run-out')
      return [{ ...entry, id: 'training-run-out', values: { ...values, from: training.validTo ?? last } }];
    if (training.standing === 'on-file') return [];
    const scored = rounds.filter(({ round }) => round.by !== undefined && bare(round.by) === bare(name));
    return lifted > 0
      ? [{ ...entry, id: 'worker-without-training', values }]
      : [
          {
            ...entry,
            id: 'scorer-without-training',
            values: { name, list: scored.map(({ round }) => round.date) },
          },
        ];
  });
}

function missingOfTools({ visits }: AuditFacts): MissingForAudit[] {
  const lifted = visits.filter((visit) => visit.lifted);
  const of = (said: boolean | undefined) =>
    lifted.filter(({ visit }) => visit['tools-disinfected'] === said).map(({ visit }) => visit.date);
  return (
    [
      ['tools-not-said', of(undefined), 'in-the-record'],
      ['tools-not-disinfected', of(false), 'no-longer'],
    ] as const
  ).flatMap(([id, days, closable]): MissingForAudit[] =>
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
