import type { CaseRecord } from '../../record/practice.js';
import { painReliefWords } from '../../record/words.js';
import { spreadOf } from '../../herd/printed-figure.js';
import { spreadInWords } from '../../words/compose-herd.js';
import type { Words } from '../../reference/words.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { waitingOf, type LoggedVisit, type RunInPeriod } from '../facts/run-in-period.js';
import { fellDue, type RecheckStanding } from '../facts/recheck.js';
import { trainingOn } from '../facts/worker.js';
import { sealed, type SealedTable, type Share } from '../table/column.js';

/** One measure of the period: always a part of a whole that is named. */
export interface SummaryMeasure {
  /** Key of `audit.measure.…`. */
  readonly name: string;
  readonly share: Share;
  readonly note?: (words: Words) => string;
}

/** The period at a glance. */
export function summaryTable(measures: readonly SummaryMeasure[]): SealedTable {
  return sealed<SummaryMeasure>({
    name: 'summary',
    rows: measures,
    columns: [
      { name: 'measure', kind: 'word', words: 'audit.measure', of: ({ name }) => name },
      { name: 'share', kind: 'share', of: ({ share }) => share },
      { name: 'note', kind: 'text', blank: true, of: ({ note }, words) => note?.(words) },
    ],
  });
}

/** The measures, in the order an auditor asks. */
export function measuresOf(facts: AuditFacts): SummaryMeasure[] {
  return [...ofRuns(facts), ...ofWork(facts)];
}

/** How many of some things are so, and of how many animals they are. */
function partOf<T>(all: readonly T[], is: (one: T) => boolean, animalOf: (one: T) => unknown): Share {
  return { count: all.filter(is).length, of: all.length, animals: new Set(all.map(animalOf)).size };
}

function ofRuns({ runs, rechecks }: AuditFacts): SummaryMeasure[] {
  const isLame = (run: RunInPeriod) => run.lame !== 'not-recorded';
  const lame = runs.filter(isLame).map((run) => ({ ...run, ...waitingOf(run) }));
  const animal = ({ work }: RunInPeriod) => work.record;
  const known = lame.filter(({ days }) => days !== undefined);
  const spread = spreadOf(
    known.flatMap(({ days }) => days ?? []),
    new Set(known.map(animal)).size,
  );
  const due = rechecks.filter(fellDue);
  const ended = lame.filter(({ episode }) => episode.ended !== undefined);
  return [
    { name: 'lame', share: partOf(runs, isLame, animal) },
    { name: 'seen', share: partOf(lame, ({ seen }) => seen !== undefined, animal) },
    { name: 'lifted', share: partOf(lame, ({ lifted }) => lifted !== undefined, animal) },
    {
      name: 'waited',
      share: partOf(lame, ({ days }) => days !== undefined, animal),
      ...(spread
        ? { note: (words) => words.say('audit.waited', { days: spreadInWords(words, spread) }) }
        : {}),
    },
    {
      name: 'rechecks',
      share: partOf(
        due,
        ({ standing }) => standing === 'kept',
        ({ record }) => record,
      ),
      note: (words) => recheckNote(words, rechecks),
    },
    {
      name: 'ended',
      share: partOf(lame, ({ episode }) => episode.ended !== undefined, animal),
      ...(ended.length > 0 ? { note: (words) => resultsNote(words, ended) } : {}),
    },
  ];
}

function ofWork({
  visits,
  medicines,
  referrals,
  rounds,
  business,
  seals,
  sealed: records,
}: AuditFacts): SummaryMeasure[] {
  const lifted = visits.filter((visit) => visit.lifted);
  const lameLifts = lifted.filter(({ lame }) => lame);
  const asked = medicines.filter(({ isMedicine }) => isMedicine);
  const animal = ({ record }: { readonly record: CaseRecord | undefined }) => record;
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

function countOf(rechecks: AuditFacts['rechecks'], standing: RecheckStanding): number {
  return rechecks.filter((one) => one.standing === standing).length;
}

function recheckNote(words: Words, rechecks: AuditFacts['rechecks']): string {
  const missed = rechecks.filter(({ standing }) => standing === 'missed');
  const parts: readonly (readonly [string, number])[] = [
    ['kept-late', countOf(rechecks, 'kept-late')],
    ['missed-why', missed.filter(({ why }) => why.length > 0).length],
    ['missed', missed.filter(({ why }) => why.length === 0).length],
    ['moved', countOf(rechecks, 'moved')],
    ['ended', countOf(rechecks, 'ended')],
    ['not-due-yet', countOf(rechecks, 'not-due-yet')],
    ['suspended', countOf(rechecks, 'suspended')],
  ];
  return words.semicolons(
    parts.flatMap(([key, count]) => (count === 0 ? [] : words.say(`audit.recheck-note.${key}`, { count }))),
  );
}

/** What was given is no more than it was: asked for, advised and declined are counted apart. */
function painReliefNote(words: Words, lameLifts: AuditFacts['visits']): string {
  return words.semicolons(
    painReliefWords.flatMap((word) => {
      const count = lameLifts.filter(({ visit }) => visit['pain-relief'] === word).length;
      const said = words.say(`vocabulary.pain-relief.${word}`);
      return count === 0 ? [] : words.say('audit.by-score', { score: said, count });
    }),
  );
}

function toolsNote(words: Words, lifted: AuditFacts['visits']): string {
  const count = (said: boolean | undefined) =>
    lifted.filter(({ visit }) => visit['tools-disinfected'] === said).length;
  const parts: readonly (readonly [string, number])[] = [
    ['no', count(false)],
    ['not-said', count(undefined)],
  ];
  return words.semicolons(
    parts.flatMap(([key, cases]) =>
      cases === 0 ? [] : words.say(`audit.tools-note.${key}`, { count: cases }),
    ),
  );
}

function resultsNote(words: Words, ended: AuditFacts['runs']): string {
  const results = [...new Set(ended.map(({ episode }) => episode.result ?? 'not-said'))];
  return words.semicolons(
    results.map((result) =>
      words.say('audit.by-score', {
        score: words.say(`audit.outcome.${result}`),
        count: ended.filter(({ episode }) => (episode.result ?? 'not-said') === result).length,
      }),
    ),
  );
}
