import { type CalendarDay, daysBetween } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import type { CaseRecord } from '../../record/practice.js';
import { fixedDays, intervalsInForce } from '../../reference/intervals.js';
import { substancesOf } from '../../reference/substances.js';
import {
  missingOnFarm,
  type MissingEntry,
  type MissingGrade,
  type MissingId,
} from '../../schedule/missing-on-farm.js';
import {
  type MissingContext,
  missingOfProducts,
  missingPainRelief,
  missingProducts,
  missingVetAnswers,
  missingWhyMissed,
} from '../../schedule/missing-in-case.js';
import { withoutProduct } from '../../schedule/withheld.js';
import { largest } from '../../statistics/estimate.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { MedicinePart } from '../facts/medicine-use.js';
import { liftsAFoot, type RunInPeriod, waitingOf } from '../facts/run-in-period.js';
import { entriesWitnessed } from '../facts/sealed-in-period.js';
import { bare } from '../facts/worker.js';

/** Where a missing entry can be put in; `no-longer`: only said openly, since what should have been done cannot be done now. */
type Closable = MissingEntry['closable'] | 'no-longer';

/**
 * What an auditor asks for and no single case can tell, by its id under `audit.missing` in the words: how much it costs and
 * where it can be put in, unless more is known of one.
 */
const ownOfPack = {
  'plan-missing': ['serious', 'by-asking'],
  'plan-later': ['worth closing', 'by-asking'],
  'no-gait-round': ['serious', 'next-lift'],
  'round-without-scale': ['serious', 'in-the-record'],
  'round-without-scorer': ['worth closing', 'by-asking'],
  'scorer-without-training': ['worth closing', 'in-the-record'],
  'worker-without-training': ['worth closing', 'in-the-record'],
  'training-run-out': ['worth closing', 'in-the-record'],
  'first-seen-missing': ['serious', 'by-asking'],
  'first-seen-by-missing': ['minor', 'by-asking'],
  'not-lifted': ['serious', 'next-lift'],
  'no-recheck-day': ['worth closing', 'in-the-record'],
  'recheck-missed': ['serious', 'no-longer'],
  'medicine-incomplete': ['worth closing', 'by-asking'],
  'tools-not-said': ['worth closing', 'in-the-record'],
  'tools-not-disinfected': ['worth closing', 'no-longer'],
  'vet-not-asked': ['serious', 'by-asking'],
  'end-not-written': ['minor', 'in-the-record'],
  'not-sealed': ['worth closing', 'in-the-record'],
  unsealed: ['worth closing', 'in-the-record'],
  'written-late': ['worth closing', 'no-longer'],
  'no-witness': ['minor', 'in-the-record'],
  'head-lost': ['serious', 'no-longer'],
} as const satisfies Record<string, readonly [MissingGrade, Closable]>;

/** A missing entry an audit shows beside those of each case. */
export interface MissingForAudit {
  readonly id: keyof typeof ownOfPack;
  readonly grade: MissingGrade;
  readonly closable: Closable;
  readonly since?: CalendarDay;
  /** What fills its words; a list of days is worded as one. */
  readonly values: Readonly<Record<string, string | number | readonly CalendarDay[]>>;
}

/** A missing entry of the pack, one of a case as the schedule finds it or one of the pack's own; without a record the farm's. */
export type MissingInPack = (MissingForAudit | MissingEntry) & { readonly record?: CaseRecord };

type Own = MissingForAudit & { readonly record?: CaseRecord };

function own(
  id: MissingForAudit['id'],
  since: CalendarDay | undefined,
  values: MissingForAudit['values'] = {},
  record?: CaseRecord,
): Own {
  const [grade, closable] = ownOfPack[id];
  return { id, grade, closable, values, ...given({ since, record }) };
}

const order: readonly MissingGrade[] = ['serious', 'worth closing', 'minor'];

/** What the records of the period do not hold and an audit asks for: serious first, the farm's before the animals', then by day. */
export function missingInPack(facts: AuditFacts): MissingInPack[] {
  const { farm, period, today } = facts;
  const ownEntries = [
    ...missingPlan(facts),
    ...missingOfRounds(facts),
    ...missingTraining(facts),
    ...missingOfTools(facts),
    ...missingOfRuns(facts),
    ...missingRechecks(facts),
    ...missingOfMedicines(facts),
    ...missingSeals(facts),
  ];
  const isAlways = (id: string) => id === 'plan-later' || id === 'training-run-out';
  return [
    ...missingOnFarm(farm, today).filter(({ since = '' }) => since <= period.to),
    ...ownEntries.filter(({ since = '', id }) => since <= period.to || isAlways(id)),
    ...missingInCases(facts),
  ].sort(
    (a: MissingInPack, b: MissingInPack) =>
      order.indexOf(a.grade) - order.indexOf(b.grade) || compare(a.record?.slug ?? '', b.record?.slug ?? ''),
  );
}

/** How many are missing, by what they cost. */
export function countByGrade(missing: readonly MissingInPack[]): Record<MissingGrade, number> {
  const count = (grade: MissingGrade) => missing.filter((entry) => entry.grade === grade).length;
  return { serious: count('serious'), 'worth closing': count('worth closing'), minor: count('minor') };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * The missing entries the book lists for each case, as far as they belong to the period; and of runs that have ended, which the
 * book no longer lists, those an auditor still asks for: pain relief, the vet's answer, why she was not presented.
 *
 * The rule: an entry belongs where its visit is of a run that belongs, a product's where its days reach into the period, how
 * she left where that day lies in it, and none that came up after the period's last day. A recheck passed is left out
 * here: the pack has each missed recheck.
 */
function missingInCases(facts: AuditFacts): MissingInPack[] {
  const { farm, runs, worked, medicines, period, today } = facts;
  return worked.flatMap((work) => {
    const { record } = work;
    const hers = runs.filter((run) => run.work === work);
    const ended = hers.filter(({ episode }) => episode.ended !== undefined);
    const belongs = ({ id, path: [of, visit], since }: MissingEntry): boolean => {
      if (id === 'gap/recheck-passed' || (since !== undefined && since > period.to)) return false;
      if (of === 'episodes') return since !== undefined && since >= period.from;
      return hers.some(
        ({ visits }) => typeof visit !== 'number' || visits.some(([place]) => place === visit),
      );
    };
    const treated = withoutProduct(record.animal, today);
    const ofProducts = [
      ...missingOfProducts(
        medicines.filter((one) => one.record === record),
        farm.farm,
      ),
      ...missingProducts(treated.filter(({ day }) => day >= period.from && day <= period.to)),
    ];
    const ofCase = work.missing.filter(({ id }) => !ofPeriod.has(id));
    return [
      ...[...ofCase, ...ended.flatMap((run) => missingInEnded(facts, run))].filter(belongs),
      ...ofProducts.filter(({ since = '' }) => since <= period.to),
    ].map((entry) => ({ ...entry, record }));
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

/** What is missing of each lameness episode that the case alone does not list: first sight, first lift, next day, end, and the vet not asked. */
function missingOfRuns({ runs, today }: AuditFacts): Own[] {
  return runs.flatMap((run) => {
    const { ended } = run.episode;
    const isOpen = ended === undefined;
    return [
      ...missingFirstSeen(run),
      // What the lesions' standing says is of the open run, the vet's list of the last: what stops work outlives its end.
      ...(isOpen ? missingWhileOpen(run, today) : []),
      ...(isOpen || ended === run.work.standing.closed?.on ? missingVetAsked(run) : []),
    ];
  });
}

function missingFirstSeen(run: RunInPeriod): Own[] {
  const { record } = run.work;
  const { seen, lifted } = waitingOf(run);
  if (run.lame === 'not-recorded') return [];
  const day = seen?.day ?? lifted?.day ?? run.begins;
  if (!seen) return [own('first-seen-missing', day, { day }, record)];
  return seen.by === undefined ? [own('first-seen-by-missing', day, { day }, record)] : [];
}

function missingWhileOpen(run: RunInPeriod, today: string): Own[] {
  const { visits, lame, work } = run;
  const { record, standing } = work;
  const { seen, lifted } = waitingOf(run);
  if (!lifted) {
    const day = seen?.day ?? run.begins;
    const count = daysBetween(day, today);
    return lame === 'not-recorded' ? [] : [own('not-lifted', day, { day, count }, record)];
  }
  const { lesions } = standing;
  const over = lesions.length > 0 && lesions.every((one) => isOver.has(one.standing));
  const last = visits.findLast(([, visit]) => liftsAFoot(record.animal, visit))?.[1];
  const day = last?.date ?? lifted.day;
  if (over && standing.gait.standing === 'sound') return [own('end-not-written', day, { day }, record)];
  const isSet = visits.some(([, { date, recheck }]) => recheck !== undefined && date >= day);
  return over || isSet ? [] : [own('no-recheck-day', day, { day }, record)];
}

const isOver: ReadonlySet<string> = new Set(['healed', 'joined', 'lasting']);

function missingVetAsked({ work: { record, notices } }: RunInPeriod): Own[] {
  return notices
    .filter(({ standing, asked, answered, seenAgain }) => standing && (seenAgain || (!asked && !answered)))
    .map(({ rule, urgency, raised }) => ({
      ...own('vet-not-asked', raised, { rule, day: raised }, record),
      ...(urgency === 'notice' ? { grade: 'worth closing' } : {}),
    }));
}

function missingRechecks({ rechecks, runs }: AuditFacts): Own[] {
  return rechecks
    .filter(({ standing }) => standing === 'missed')
    .map(({ record, visit, due, why }) => {
      const run = runs.find((one) => one.work.record === record && one.episode.visits.includes(visit));
      const isOpen = run !== undefined && run.episode.ended === undefined;
      const which = `${why.length > 0 ? 'why' : 'no-why'}-${isOpen ? 'open' : 'ended'}`;
      return {
        ...own('recheck-missed', due, { day: due, which }, record),
        ...(why.length > 0 ? { grade: 'worth closing' } : {}),
        ...(isOpen ? { closable: 'next-lift' } : {}),
      };
    });
}

/** Batch, class and withdrawal are missing entries of the case's own, and the prescriber of a substance that is a medicine. */
const ownOfCase: ReadonlySet<MedicinePart> = new Set(['batch', 'milk-withdrawal', 'meat-withdrawal']);

function missingOfMedicines({ medicines }: AuditFacts): Own[] {
  return medicines.flatMap(({ record, use, first, missing }) => {
    const isOwn = (part: MedicinePart) =>
      ownOfCase.has(part) || (part === 'prescribed-by' && substancesOf(use).length > 0);
    const parts = missing.filter((part) => !isOwn(part)).join(' ');
    const values = { product: use.product, day: first, parts };
    return parts === '' ? [] : [own('medicine-incomplete', first, values, record)];
  });
}

/** What is missing of the seals: nothing sealed, some not sealed, some written late, and no mail that bears witness to them. */
function missingSeals({ seals, sealed, witnesses, period }: AuditFacts): Own[] {
  const since = period.from;
  if (!seals.head) return [own('not-sealed', since)];
  const late = sealed.filter(({ isLate }) => isLate);
  const unsealed = sealed.filter(({ firstSealed }) => firstSealed === undefined);
  const inLedger = sealed.flatMap(({ seal }) => seal.sealed?.first.number ?? []);
  const witnessed = witnesses.map((one) => entriesWitnessed(seals, one));
  const lost = witnesses.filter((_, at) => witnessed[at] === undefined);
  const isWitnessed = largest(witnessed.map((entries = 0) => entries), 0) >= largest(inLedger, 0); // prettier-ignore
  const ofSealed = { of: sealed.length - unsealed.length, days: fixedDays('written-late') };
  return [
    ...(lost.length > 0 ? [own('head-lost', since, { list: lost.map(({ day }) => day) })] : []),
    ...(unsealed.length > 0 ? [own('unsealed', since, { count: unsealed.length, of: sealed.length })] : []),
    ...(late.length > 0 ? [own('written-late', since, { count: late.length, ...ofSealed })] : []),
    ...(inLedger.length > 0 && !isWitnessed ? [own('no-witness', since)] : []),
  ];
}

function missingPlan({ farm, period }: AuditFacts): Own[] {
  const { plan } = farm.farm;
  if (!plan) return [own('plan-missing', undefined)];
  return plan.date <= period.to ? [] : [own('plan-later', plan.date, { day: plan.date })];
}

function missingOfRounds({ rounds, period }: AuditFacts): Own[] {
  if (rounds.length === 0) return [own('no-gait-round', period.to)];
  return rounds.flatMap(({ round: { date: day, by }, scored }) => [
    ...(scored ? [] : [own('round-without-scale', day, { day })]),
    ...(by === undefined ? [own('round-without-scorer', day, { day })] : []),
  ]);
}

function missingTraining({ workers, rounds }: AuditFacts): Own[] {
  return workers.flatMap(({ name, training, lifted, last }) => {
    const values = { name, day: last, count: lifted };
    if (training.standing === 'run-out')
      return [own('training-run-out', last, { ...values, from: training.validTo ?? last })];
    if (training.standing === 'on-file') return [];
    if (lifted > 0) return [own('worker-without-training', last, values)];
    const scored = rounds.filter(({ round }) => round.by !== undefined && bare(round.by) === bare(name));
    return [own('scorer-without-training', last, { name, list: scored.map(({ round }) => round.date) })];
  });
}

function missingOfTools({ visits }: AuditFacts): Own[] {
  const lifted = visits.filter((visit) => visit.lifted);
  const saying = { 'tools-not-said': undefined, 'tools-not-disinfected': false } as const;
  return (['tools-not-said', 'tools-not-disinfected'] as const).flatMap((id) => {
    const such = lifted.filter(({ visit }) => visit['tools-disinfected'] === saying[id]);
    const list = [...new Set(such.map(({ visit }) => visit.date))];
    return such.length === 0 ? [] : [own(id, list[0], { count: such.length, of: lifted.length, list })];
  });
}
