import {
  gapsOfFarm,
  type GapGrade,
  type Gap,
  type GapId,
  type GapContext,
} from '../../schedule/gaps-of-farm.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { type GapInPack, type AuditGap, runGaps } from './audit-gap.js';
import { largest } from '../../statistics/estimate.js';
import { entriesWitnessed } from '../facts/sealed-in-period.js';
import { fixedDays } from '../../reference/intervals.js';
import type { MedicinePart } from '../facts/medicine-use.js';
import { substancesOf } from '../../reference/substances.js';
import {
  productGaps,
  treatedGaps,
  missedGaps,
  painReliefGaps,
  vetGaps,
} from '../../schedule/gaps/visit-gaps.js';
import { intervalsInForce } from '../../schedule/interval-in-force.js';
import { withoutProduct } from '../../schedule/withheld.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import { bare } from '../facts/worker.js';

/**
 * The gaps the book lists for each case, as far as they belong to the period; and of runs that have ended, which the
 * book no longer lists, those an auditor still asks for: pain relief, the vet's answer, why she was not presented.
 *
 * The rule: a gap belongs where its visit is of a run that belongs, a product's where its days reach into the period, how
 * she left where that day lies in it, and none that came up after the period's last day. A recheck passed is left out
 * here: the pack has each missed recheck.
 */
function caseGaps(facts: AuditFacts): GapInPack[] {
  const { farm, runs, worked, period, today } = facts;
  return worked.flatMap((work) => {
    const hers = runs.filter((run) => run.work === work);
    const ended = hers.filter(({ episode }) => episode.ended !== undefined);
    const belongs = ({ id, path: [of, visit], since }: Gap): boolean => {
      if (id === 'gap/recheck-passed' || (since !== undefined && since > period.to)) return false;
      if (of === 'episodes') return since !== undefined && since >= period.from;
      return hers.some(
        ({ visits }) => typeof visit !== 'number' || visits.some(([place]) => place === visit),
      );
    };
    const given = [
      ...productGaps(
        facts.medicines.filter(({ record }) => record === work.record),
        farm.farm,
      ),
      ...treatedGaps(
        withoutProduct(work.record.animal, today).filter(({ day }) => day >= period.from && day <= period.to),
      ),
    ];
    const ofCase = work.gaps.filter(({ id }) => !ofPeriod.has(id));
    return [
      ...[...ofCase, ...ended.flatMap((run) => gapsOfEnded(facts, run))].filter(belongs),
      ...given.filter(({ since = '' }) => since <= period.to),
    ].map((gap) => ({ ofCase: gap, record: work.record }));
  });
}

/** Gaps of what was given: worked out anew of what lies in the period. */
const ofPeriod: ReadonlySet<GapId> = new Set([
  'gap/product-without-batch',
  'gap/product-without-class',
  'gap/product-without-withdrawal',
  'gap/medicine-without-prescriber',
  'gap/treated-without-product',
]);

function gapsOfEnded({ farm: { farm }, business, today }: AuditFacts, run: RunInPeriod): Gap[] {
  const { standing, record } = run.work;
  const context: GapContext = {
    animal: record.animal,
    farm,
    standing: { ...standing, gait: { ...standing.gait, scores: run.scores } },
    interval: intervalsInForce(farm, business),
    open: run.visits,
    today,
  };
  return [...painReliefGaps(context), ...vetGaps(context), ...missedGaps(context)];
}

/** Gaps of single records: rechecks missed, and what a medicine's line lacks beyond what its case lists. */
function recordGaps(facts: AuditFacts): AuditGap[] {
  return [...recheckGaps(facts), ...medicineGaps(facts)];
}

function recheckGaps({ rechecks, runs }: AuditFacts): AuditGap[] {
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

/** Batch, class and withdrawal are the case's own gaps, and the prescriber of a substance that is a medicine. */
const ownOfCase: ReadonlySet<MedicinePart> = new Set(['batch', 'milk-withdrawal', 'meat-withdrawal']);

function medicineGaps({ medicines }: AuditFacts): AuditGap[] {
  return medicines.flatMap(({ record, use, first, missing }): AuditGap[] => {
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

const order: readonly GapGrade[] = ['serious', 'worth closing', 'minor'];

/** What the records of the period do not hold and an audit asks for: serious first, the farm's before the animals', then by day. */
export function gapsInPack(facts: AuditFacts): GapInPack[] {
  const { farm, period, today } = facts;
  const ownFarm = gapsOfFarm(farm, today)
    .filter(({ since = '' }) => since <= period.to)
    .map((ofCase): GapInPack => ({ ofCase, record: undefined }));
  const own = [...farmGaps(facts), ...runGaps(facts), ...recordGaps(facts), ...sealGaps(facts)]
    .filter(({ since = '', id }) => since <= period.to || id === 'plan-later' || id === 'training-run-out')
    .map((gap): GapInPack => ({ own: gap }));
  return [...ownFarm, ...own, ...caseGaps(facts)].sort(
    (a, b) => order.indexOf(gradeOf(a)) - order.indexOf(gradeOf(b)) || compare(animalOf(a), animalOf(b)),
  );
}

/** How much a gap of the pack costs. */
export function gradeOf(gap: GapInPack): GapGrade {
  return 'own' in gap ? gap.own.grade : gap.ofCase.grade;
}

function animalOf(gap: GapInPack): string {
  return ('own' in gap ? gap.own.record : gap.record)?.slug ?? '';
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Gaps of the seals: nothing sealed, some not sealed, some written late, and no mail that bears witness to them. */
function sealGaps({ seals, sealed, witnesses, period }: AuditFacts): AuditGap[] {
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
    ...gap('head-lost', 'serious', 'no-longer', lost.length > 0, {
      list: lost.map(({ day }) => day),
    }),
    ...gap('unsealed', 'worth closing', 'in-the-record', unsealed.length > 0, {
      count: unsealed.length,
      of: sealed.length,
    }),
    ...gap('written-late', 'worth closing', 'no-longer', late.length > 0, {
      count: late.length,
      of: sealed.length - unsealed.length,
      days: fixedDays('written-late'),
    }),
    ...gap('no-witness', 'minor', 'in-the-record', inLedger.length > 0 && witnessed < last, {}),
  ];

  function gap(
    id: AuditGap['id'],
    grade: AuditGap['grade'],
    closable: AuditGap['closable'],
    holds: boolean,
    values: AuditGap['values'],
  ): AuditGap[] {
    return holds ? [{ id, grade, closable, since, values }] : [];
  }
}

/** Gaps of the farm and the people: plan, rounds, training, tools. */
function farmGaps(facts: AuditFacts): AuditGap[] {
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
