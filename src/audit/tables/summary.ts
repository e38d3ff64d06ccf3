import type { CaseRecord } from '../../record/practice.js';
import { painReliefWords } from '../../record/words.js';
import { spreadOf } from '../../herd/printed-figure.js';
import { spreadInWords } from '../../words/compose-herd.js';
import type { Words } from '../../reference/words.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { waitingOf, type LoggedVisit, type RunInPeriod } from '../facts/run-in-period.js';
import { fellDue, type RecheckStanding } from '../facts/recheck.js';
import { trainingOn } from '../facts/worker.js';
import { blank, columnsOf, sealed, type SealedTable, type Share } from '../table/column.js';

/** One measure of the period: always a part of a whole that is named. */
interface SummaryMeasure {
  /** Key of `audit.measure.…`. */
  readonly name: string;
  readonly share: Share;
  readonly note?: (words: Words) => string | undefined;
}

/** The period at a glance. */
export function summaryTable(facts: AuditFacts): SealedTable {
  const { text, word, share } = columnsOf<SummaryMeasure>();
  return sealed('summary', measuresOf(facts), [
    word('measure', 'audit.measure', ({ name }) => name),
    share('share', (measure) => measure.share),
    text('note', ({ note }, words) => note?.(words), blank),
  ]);
}

/** How many of some things are so, and of how many animals they are. */
function partOf<T>(all: readonly T[], is: (one: T) => boolean, animalOf: (one: T) => unknown): Share {
  return { count: all.filter(is).length, of: all.length, animals: new Set(all.map(animalOf)).size };
}

const animal = ({ record }: { readonly record: CaseRecord | undefined }) => record;

/** The measures, in the order an auditor asks. */
function measuresOf(facts: AuditFacts): SummaryMeasure[] {
  return [...ofRuns(facts), ...ofWork(facts)];
}

function ofRuns({ runs, rechecks }: AuditFacts): SummaryMeasure[] {
  const isLame = (run: RunInPeriod) => run.lame !== 'not-recorded';
  const cow = ({ work }: RunInPeriod) => work.record;
  const lame = runs.filter(isLame).map((run) => ({ ...run, ...waitingOf(run) }));
  const ofLame = (is: (one: (typeof lame)[number]) => boolean) => partOf(lame, is, cow);
  const known = lame.filter(({ days }) => days !== undefined);
  const spread = spreadOf(
    known.flatMap(({ days }) => days ?? []),
    new Set(known.map(cow)).size,
  );
  const ended = lame.filter(({ episode }) => episode.ended !== undefined);
  const isKept = ({ standing }: (typeof rechecks)[number]) => standing === 'kept';
  return [
    { name: 'lame', share: partOf(runs, isLame, cow) },
    { name: 'seen', share: ofLame(({ seen }) => seen !== undefined) },
    { name: 'lifted', share: ofLame(({ lifted }) => lifted !== undefined) },
    {
      name: 'waited',
      share: ofLame(({ days }) => days !== undefined),
      note: (words) => spread && words.say('audit.waited', { days: spreadInWords(words, spread) }),
    },
    {
      name: 'rechecks',
      share: partOf(rechecks.filter(fellDue), isKept, animal),
      note: (words) => recheckNote(words, rechecks),
    },
    {
      name: 'ended',
      share: ofLame(({ episode }) => episode.ended !== undefined),
      note: (words) => resultsNote(words, ended),
    },
  ];
}

function ofWork(facts: AuditFacts): SummaryMeasure[] {
  const { visits, medicines, referrals, rounds, business, seals, sealed: records } = facts;
  const lifted = visits.filter((visit) => visit.lifted);
  const lameLifts = lifted.filter(({ lame }) => lame);
  const asked = medicines.filter(({ isMedicine }) => isMedicine);
  const isTrained = ({ visit }: LoggedVisit) =>
    trainingOn(business, visit.by, visit.date).standing === 'on-file';
  return [
    {
      name: 'pain-relief',
      share: partOf(lameLifts, ({ visit }) => visit['pain-relief'] !== undefined, animal),
      note: (words) => painReliefNote(words, lameLifts),
    },
    { name: 'medicines', share: partOf(asked, ({ missing }) => missing.length === 0, animal) },
    { name: 'referrals', share: partOf(referrals, ({ answers }) => answers.length > 0, animal) },
    { name: 'trained', share: partOf(lifted, isTrained, animal) },
    {
      name: 'scorers',
      share: partOf(
        rounds,
        ({ training }) => training.standing === 'on-file',
        (one) => one,
      ),
    },
    {
      name: 'tools',
      share: partOf(lifted, ({ visit }) => visit['tools-disinfected'] === true, animal),
      note: (words) => toolsNote(words, lifted),
    },
    // Where nothing is sealed there is nothing to count: the pack says so in words.
    ...(seals.head
      ? [
          {
            name: 'in-time',
            share: partOf(records, ({ firstSealed, isLate }) => firstSealed !== undefined && !isLate, animal),
          },
        ]
      : []),
  ];
}

type Counts = readonly (readonly [key: string, count: number])[];

/** What there is some of, each with how many. */
export function someOf(words: Words, area: string, counts: Counts): string[] {
  return counts.flatMap(([key, count]) => (count === 0 ? [] : words.say(`${area}.${key}`, { count })));
}

function recheckNote(words: Words, rechecks: AuditFacts['rechecks']): string {
  const missed = rechecks.filter(({ standing }) => standing === 'missed');
  const countOf = (standing: RecheckStanding) =>
    [standing, rechecks.filter((one) => one.standing === standing).length] as const;
  const counts: Counts = [
    countOf('kept-late'),
    ['missed-why', missed.filter(({ why }) => why.length > 0).length],
    ['missed', missed.filter(({ why }) => why.length === 0).length],
    ...(['moved', 'ended', 'not-due-yet', 'suspended'] as const).map(countOf),
  ];
  return words.semicolons(someOf(words, 'audit.recheck-note', counts));
}

/** What was given is no more than it was: asked for, advised and declined are counted apart. */
function painReliefNote(words: Words, lameLifts: AuditFacts['visits']): string {
  const given = lameLifts.flatMap(({ visit }) => visit['pain-relief'] ?? []);
  return byWord(words, 'vocabulary.pain-relief', painReliefWords, given);
}

function toolsNote(words: Words, lifted: AuditFacts['visits']): string {
  const count = (said: boolean | undefined) =>
    lifted.filter(({ visit }) => visit['tools-disinfected'] === said).length;
  const counts: Counts = [
    ['no', count(false)],
    ['not-said', count(undefined)],
  ];
  return words.semicolons(someOf(words, 'audit.tools-note', counts));
}

function resultsNote(words: Words, ended: AuditFacts['runs']): string {
  const results = ended.map(({ episode }) => episode.result ?? 'not-said');
  return byWord(words, 'audit.outcome', [...new Set(results)], results);
}

/** How often each word was said, of those that were. */
function byWord(words: Words, area: string, list: readonly string[], said: readonly string[]): string {
  const counts = list.map((word) => ({ word, count: said.filter((one) => one === word).length }));
  return words.semicolons(
    counts.flatMap(({ word, count }) =>
      count === 0 ? [] : words.say('audit.by-score', { score: words.say(`${area}.${word}`), count }),
    ),
  );
}
