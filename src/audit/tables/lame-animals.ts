import type { AuditFacts } from '../facts/audit-facts.js';
import { type Waiting, waitingOf } from '../facts/first-seen.js';
import { fellDue } from '../facts/recheck.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import type { CaseRecord } from '../../record/practice.js';
import type { GaitScore } from '../../healing/standing.js';
import { sealed, type SealedTable, type Share } from '../table/column.js';
import { animalColumns } from './animal-columns.js';
import { scoreInWords } from './score-in-words.js';
import type { Visit } from '../../record/visit.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Words } from '../../words/words.js';
import { liftsAFoot } from '../facts/lifts-a-foot.js';
import { lesionWithSite } from './lesion-with-site.js';

interface LameRow {
  readonly record: CaseRecord;
  readonly run: RunInPeriod;
  readonly waiting: Waiting;
  readonly firstLame?: GaitScore;
  /** Of the rechecks of this run that fell due in the period. */
  readonly rechecks?: Share;
}

/** Each run of trouble of the period: seen, lifted, how long between, what was found and done, and how it ended. */
export function lameAnimalsTable(facts: AuditFacts): SealedTable {
  return sealed<LameRow>({
    name: 'lame-animals',
    rows: facts.runs.map((run) => rowOf(facts, run)),
    columns: [
      ...animalColumns<LameRow>(),
      { name: 'first_seen_lame', kind: 'day', of: ({ waiting }) => waiting.seen?.day },
      { name: 'first_seen_time', kind: 'text', beneath: true, of: ({ waiting }) => waiting.seen?.at },
      { name: 'first_seen_by', kind: 'text', beneath: true, of: ({ waiting }) => waiting.seen?.by },
      {
        name: 'first_seen_from',
        kind: 'word',
        words: 'audit.seen-from',
        beneath: true,
        of: ({ run, waiting }) =>
          run.lame === 'not-recorded' ? 'not-lame' : (waiting.seen?.from ?? 'not-written'),
      },
      { name: 'first_scored_lame', kind: 'day', of: ({ firstLame }) => firstLame?.date },
      {
        name: 'first_lame_score',
        kind: 'text',
        beneath: true,
        of: ({ firstLame }, words) => firstLame && scoreInWords(words, firstLame.score, firstLame.scale),
      },
      { name: 'first_lifted', kind: 'day', of: ({ waiting }) => waiting.lifted?.day },
      { name: 'first_lifted_time', kind: 'text', beneath: true, of: ({ waiting }) => waiting.lifted?.at },
      { name: 'first_lifted_by', kind: 'text', beneath: true, of: ({ waiting }) => waiting.lifted?.by },
      { name: 'days_between', kind: 'number', of: ({ waiting }) => waiting.days },
      { name: 'hours_between', kind: 'number', beneath: true, of: ({ waiting }) => waiting.hours },
      { name: 'lesions', kind: 'lines', of: ({ run }, words) => lesionsOfRun(words, run) },
      { name: 'done', kind: 'lines', blank: true, of: ({ run }, words) => doneInRun(words, run) },
      {
        name: 'pain_relief',
        kind: 'lines',
        blank: true,
        of: ({ run }, words) => painReliefOfRun(words, run),
      },
      { name: 'outcome', kind: 'word', words: 'audit.outcome', of: ({ run }) => outcomeOf(run) },
      { name: 'ended', kind: 'day', beneath: true, of: ({ run }) => run.episode.ended },
      {
        name: 'last_score',
        kind: 'text',
        beneath: true,
        of: ({ run }, words) => {
          const last = run.scores.at(-1);
          return last && scoreInWords(words, last.score, last.scale, last.date);
        },
      },
      { name: 'rechecks_kept', kind: 'share', beneath: true, of: ({ rechecks }) => rechecks },
    ],
  });
}

function rowOf({ rechecks }: AuditFacts, run: RunInPeriod): LameRow {
  const { record } = run.work;
  const due = rechecks.filter(
    (one) => one.record === record && run.episode.visits.includes(one.visit) && fellDue(one),
  );
  const firstLame = run.scores.find(({ lame }) => lame);
  return {
    record,
    run,
    waiting: waitingOf(run),
    ...(firstLame ? { firstLame } : {}),
    ...(due.length === 0
      ? {}
      : {
          rechecks: {
            count: due.filter(({ standing }) => standing === 'kept').length,
            of: due.length,
            animals: 1,
          },
        }),
  };
}

function outcomeOf({ episode }: RunInPeriod): string {
  if (episode.ended === undefined) return 'open';
  return episode.result ?? 'not-said';
}

/** Every lesion found in a run, in the order declared. */
function lesionsOfRun(words: Words, { work, visits }: RunInPeriod): string[] {
  const { animal } = work.record;
  const last = visits.at(-1)?.[0] ?? -1;
  const found = new Set(visits.flatMap(([, visit]) => Object.keys(visit.found ?? {})));
  return Object.keys(animal.lesions)
    .filter((name) => found.has(name))
    .map((name) => lesionWithSite(words, animal, name, last));
}

/** What was done in a run, each with how often: every visit stands in the table of visits. */
function doneInRun(words: Words, { work, visits }: RunInPeriod): string[] {
  const { animal } = work.record;
  const counts: readonly (readonly [string, number])[] = [
    ['lifted', visits.filter(([, visit]) => liftsAFoot(animal, visit)).length],
    ['trimmed', visits.filter(([, { trimmed }]) => trimmed?.length).length],
    ['cut-back', visits.filter(([, visit]) => visit['cut-back']?.length).length],
    ['block', fitted(visits, 'blocks')],
    ['wrap', fitted(visits, 'wraps')],
    ['product', visits.reduce((sum, [, { products = [] }]) => sum + products.length, 0)],
  ];
  return counts.flatMap(([key, count]) => (count === 0 ? [] : words.say(`audit.done.${key}`, { count })));
}

function fitted(visits: RunInPeriod['visits'], of: 'blocks' | 'wraps'): number {
  return visits
    .flatMap(([, { [of]: events = [] }]): readonly { readonly event: string }[] => events)
    .filter(({ event }) => event === 'fitted' || event === 'replaced').length;
}

/** Day by day what was said of pain relief: wherever it was said, and wherever she was lifted lame and it was not. */
function painReliefOfRun(words: Words, run: RunInPeriod): string[] {
  const { animal } = run.work.record;
  const lame = new Set(run.scores.filter((score) => score.lame).map(({ visit }) => visit));
  const said = (at: number, visit: Visit): string | undefined => {
    const word = visit['pain-relief'];
    if (word === undefined)
      return lame.has(at) && liftsAFoot(animal, visit) ? words.say('audit.relief-not-said') : undefined;
    return word === 'not lame' && !lame.has(at) ? undefined : words.say(`vocabulary.pain-relief.${word}`);
  };
  return run.visits.flatMap(([at, visit]) => {
    const what = said(at, visit);
    return what === undefined
      ? []
      : words.say('audit.day-what', { day: dayInWords(words, visit.date), what });
  });
}
