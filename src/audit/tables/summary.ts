import { spreadOfCounts } from '../../herd/spread-of-counts.js';
import { painReliefWords } from '../../record/words.js';
import { mm } from '../../words/number-in-words.js';
import type { Words } from '../../words/words.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { waitingOf } from '../facts/first-seen.js';
import { fellDue, type RecheckStanding } from '../facts/recheck.js';
import { trainingOn } from '../facts/training.js';
import { sealed, type SealedTable, type Share } from '../table/column.js';

/** One measure of the period: always a part of a whole that is named. */
export interface Measure {
  /** Key of `audit.measure.…`. */
  readonly name: string;
  readonly share: Share;
  readonly note?: (words: Words) => string;
}

/** The period at a glance. */
export function summaryTable(measures: readonly Measure[]): SealedTable {
  return sealed<Measure>({
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
export function measuresOf(facts: AuditFacts): Measure[] {
  return [...ofRuns(facts), ...ofWork(facts)];
}

function ofRuns({ runs, rechecks }: AuditFacts): Measure[] {
  const lame = runs.filter((run) => run.lame !== 'not-recorded');
  const waits = lame.map(waitingOf);
  const known = waits.flatMap(({ days }) => days ?? []);
  const spread = spreadOfCounts(known);
  const due = rechecks.filter(fellDue);
  const ended = lame.filter(({ episode }) => episode.ended !== undefined);
  return [
    { name: 'lame', share: { count: lame.length, of: runs.length } },
    { name: 'seen', share: { count: waits.filter(({ seen }) => seen).length, of: lame.length } },
    { name: 'lifted', share: { count: waits.filter(({ lifted }) => lifted).length, of: lame.length } },
    {
      name: 'waited',
      share: { count: known.length, of: lame.length },
      ...(spread
        ? { note: (words) => words.say('audit.waited', { median: mm(spread.median), most: spread.most }) }
        : {}),
    },
    {
      name: 'rechecks',
      share: { count: countOf(due, 'kept'), of: due.length },
      note: (words) => recheckNote(words, rechecks),
    },
    {
      name: 'ended',
      share: { count: ended.length, of: lame.length },
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
}: AuditFacts): Measure[] {
  const lifted = visits.filter((visit) => visit.lifted);
  const lameLifts = lifted.filter(({ lame }) => lame);
  const asked = medicines.filter(({ isMedicine }) => isMedicine);
  const share = <T>(all: readonly T[], is: (one: T) => boolean): Share => ({
    count: all.filter(is).length,
    of: all.length,
  });
  return [
    {
      name: 'pain-relief',
      share: share(lameLifts, ({ visit }) => visit['pain-relief'] !== undefined),
      note: (words) => painReliefNote(words, lameLifts),
    },
    { name: 'medicines', share: share(asked, ({ missing }) => missing.length === 0) },
    { name: 'referrals', share: share(referrals, ({ answers }) => answers.length > 0) },
    {
      name: 'trained',
      share: share(lifted, ({ visit }) => trainingOn(business, visit.by, visit.date).standing === 'on-file'),
    },
    { name: 'scorers', share: share(rounds, ({ training }) => training.standing === 'on-file') },
    {
      name: 'tools',
      share: share(lifted, ({ visit }) => visit['tools-disinfected'] === true),
      note: (words) => toolsNote(words, lifted),
    },
    // Where nothing is sealed there is nothing to count: the pack says so in words.
    ...(seals.head
      ? [
          {
            name: 'in-time',
            share: share(records, ({ firstSealed, isLate }) => firstSealed !== undefined && !isLate),
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
  ];
  return parts
    .flatMap(([key, count]) => (count === 0 ? [] : words.say(`audit.recheck-note.${key}`, { count })))
    .join('; ');
}

/** What was given is no more than it was: asked for, advised and declined are counted apart. */
function painReliefNote(words: Words, lameLifts: AuditFacts['visits']): string {
  return painReliefWords
    .flatMap((word) => {
      const count = lameLifts.filter(({ visit }) => visit['pain-relief'] === word).length;
      const said = words.say(`vocabulary.pain-relief.${word}`);
      return count === 0 ? [] : words.say('audit.by-score', { score: said, count });
    })
    .join('; ');
}

function toolsNote(words: Words, lifted: AuditFacts['visits']): string {
  const count = (said: boolean | undefined) =>
    lifted.filter(({ visit }) => visit['tools-disinfected'] === said).length;
  const parts: readonly (readonly [string, number])[] = [
    ['no', count(false)],
    ['not-said', count(undefined)],
  ];
  return parts
    .flatMap(([key, cases]) => (cases === 0 ? [] : words.say(`audit.tools-note.${key}`, { count: cases })))
    .join('; ');
}

function resultsNote(words: Words, ended: AuditFacts['runs']): string {
  const results = [...new Set(ended.map(({ episode }) => episode.result ?? 'not-said'))];
  return results
    .map((result) =>
      words.say('audit.by-score', {
        score: words.say(`audit.outcome.${result}`),
        count: ended.filter(({ episode }) => (episode.result ?? 'not-said') === result).length,
      }),
    )
    .join('; ');
}
