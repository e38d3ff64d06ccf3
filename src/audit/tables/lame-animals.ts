import type { AuditFacts } from '../facts/audit-facts.js';
import { type Waiting, waitingOf } from '../facts/first-seen.js';
import { fellDue } from '../facts/recheck.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import type { CaseRecord } from '../../record/practice.js';
import type { GaitScore } from '../../healing/standing.js';
import { sealed, type SealedTable, type Share } from '../table/column.js';
import { animalColumns } from './animal-columns.js';
import { doneInRun, lesionsOfRun, painReliefOfRun } from './run-in-words.js';
import { scoreInWords } from './score-in-words.js';

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
