import { told } from '../../reference/words.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { MissingInPack } from '../missing/missing-for-audit.js';
import { type SealedTable, sealed } from '../table/column.js';
import { missingTable, amendmentsTable, witnessTable, writtenLateTable } from './seals.js';
import { lameAnimalsTable, animalColumns } from './lame-animals.js';
import { medicinesTable, visitsTable } from './visits.js';
import { measuresOf, summaryTable } from './summary.js';
import { daysBetween } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import type { Worker } from '../facts/worker.js';
import type { Recheck, Referral } from '../facts/recheck.js';
import { namedInWords, answerInWords } from '../../words/compose-due.js';
import { dayInWords } from '../../words/day-and-place.js';
import { boundsInWords } from '../../words/percent.js';
import type { RoundInPeriod } from '../facts/round-in-period.js';

/** All tables of a pack in the order an auditor asks: page and CSV files are made of these and of nothing else. */
export function tablesOfPack(facts: AuditFacts, missing: readonly MissingInPack[]): SealedTable[] {
  return [
    summaryTable(measuresOf(facts)),
    planTable(facts),
    gaitRoundsTable(facts.rounds),
    lameAnimalsTable(facts),
    rechecksTable(facts.rechecks),
    medicinesTable(facts.medicines),
    referralsTable(facts.referrals),
    peopleTable(facts.workers),
    missingTable(missing),
    visitsTable(facts),
    writtenLateTable(facts.sealed, facts.seals),
    amendmentsTable(facts.amendments),
    witnessTable(facts.witnesses, facts.seals),
  ];
}

/** The written foot-health plan on file; no row without one. */
function planTable({ farm, period }: AuditFacts): SealedTable {
  const { plan } = farm.farm;
  return sealed<NonNullable<Farm['plan']>>({
    name: 'plan',
    rows: plan ? [plan] : [],
    columns: [
      { name: 'date', kind: 'day', of: ({ date }) => date },
      { name: 'agreed_with', kind: 'text', of: (one) => told(one.with) },
      { name: 'file', kind: 'text', of: ({ file }) => told(file) },
      {
        name: 'days_before_period_end',
        kind: 'number',
        of: ({ date }) => (date <= period.to ? daysBetween(date, period.to) : undefined),
      },
    ],
  });
}

/** Who lifted feet or scored the herd, with the training on file, and how often they said that tools were disinfected. */
function peopleTable(workers: readonly Worker[]): SealedTable {
  return sealed<Worker>({
    name: 'people',
    rows: workers,
    columns: [
      { name: 'name', kind: 'text', of: ({ name }) => told(name) },
      {
        name: 'training_standing',
        kind: 'word',
        words: 'audit.training',
        strongWhen: ['run-out', 'not-on-file'],
        of: ({ training }) => training.standing,
      },
      { name: 'training', kind: 'text', beneath: true, of: ({ training }) => told(training.training) },
      { name: 'training_valid_to', kind: 'day', beneath: true, of: ({ training }) => training.validTo },
      { name: 'lifted_visits', kind: 'number', of: ({ lifted }) => lifted },
      { name: 'animals_lifted', kind: 'number', of: ({ animals }) => animals },
      {
        name: 'tools_disinfected',
        kind: 'share',
        of: ({ disinfected, lifted, animals }) =>
          lifted === 0 ? undefined : { count: disinfected, of: lifted, animals },
      },
      { name: 'gait_rounds', kind: 'number', of: ({ rounds }) => rounds },
      { name: 'last_day', kind: 'day', of: ({ last }) => last },
    ],
  });
}

/** Every recheck to be done in the period, and what became of it. */
function rechecksTable(rechecks: readonly Recheck[]): SealedTable {
  return sealed<Recheck>({
    name: 'rechecks',
    rows: rechecks,
    columns: [
      ...animalColumns<Recheck>(),
      { name: 'due', kind: 'day', of: ({ due }) => due },
      {
        name: 'standing',
        kind: 'word',
        words: 'audit.recheck',
        strongWhen: ['missed'],
        of: ({ standing }) => standing,
      },
      { name: 'moved_to', kind: 'day', beneath: true, of: ({ movedTo }) => movedTo },
      { name: 'run_ended', kind: 'day', beneath: true, of: ({ ended }) => ended?.on },
      {
        name: 'result',
        kind: 'word',
        words: 'vocabulary.result',
        beneath: true,
        of: ({ ended }) => ended?.result,
      },
      { name: 'lifted', kind: 'day', blank: true, of: ({ lifted }) => lifted?.day },
      { name: 'lifted_by', kind: 'text', blank: true, whole: true, of: ({ lifted }) => told(lifted?.by) },
      {
        name: 'days_late',
        kind: 'number',
        blank: true,
        of: ({ lifted }) => (lifted && lifted.days > 0 ? lifted.days : undefined),
      },
      { name: 'set_on', kind: 'day', of: ({ set }) => set },
      { name: 'set_by', kind: 'text', whole: true, of: ({ by }) => told(by) },
      { name: 'why_missed', kind: 'lines', blank: true, of: ({ why }) => why.map(told) },
    ],
  });
}

/** What the vet was asked, and what was answered. */
function referralsTable(referrals: readonly Referral[]): SealedTable {
  return sealed<Referral>({
    name: 'referrals',
    rows: referrals,
    columns: [
      ...animalColumns<Referral>(),
      { name: 'asked', kind: 'day', of: ({ asked }) => asked },
      { name: 'asked_by', kind: 'text', whole: true, of: ({ askedBy }) => told(askedBy) },
      { name: 'why_asked', kind: 'text', of: ({ why }) => told(why) },
      {
        name: 'asked_about',
        kind: 'text',
        beneath: true,
        blank: true,
        of: ({ about }, words) => namedInWords(words, about),
      },
      {
        name: 'standing',
        kind: 'word',
        words: 'audit.referral',
        strongWhen: ['awaited'],
        of: ({ answers }) => (answers.length === 0 ? 'awaited' : 'answered'),
      },
      { name: 'answered', kind: 'day', beneath: true, of: ({ answers }) => answers[0]?.day },
      { name: 'days_to_answer', kind: 'number', beneath: true, of: ({ days }) => days },
      {
        name: 'answers',
        kind: 'lines',
        blank: true,
        of: ({ answers }, words) =>
          answers.map(({ day, answer }) =>
            words.semicolons([
              words.say('audit.answer', {
                day: dayInWords(words, day),
                by: told(answer.by),
                reply: told(answer.reply),
              }),
              answerInWords(words, answer),
            ]),
          ),
      },
    ],
  });
}

/** Whole-herd gait rounds: by whom and with what training, and how many were lame of how many scored. */
function gaitRoundsTable(rounds: readonly RoundInPeriod[]): SealedTable {
  return sealed<RoundInPeriod>({
    name: 'gait-rounds',
    rows: rounds,
    columns: [
      { name: 'date', kind: 'day', of: ({ round }) => round.date },
      {
        name: 'scale',
        kind: 'word',
        words: 'vocabulary.gait-scale',
        beneath: true,
        of: ({ scored }) => scored?.scale,
      },
      { name: 'scored_by', kind: 'text', of: ({ round }) => told(round.by) },
      {
        name: 'training_standing',
        kind: 'word',
        words: 'audit.training',
        beneath: true,
        of: ({ training }) => training.standing,
      },
      { name: 'training', kind: 'text', beneath: true, of: ({ training }) => told(training.training) },
      { name: 'training_valid_to', kind: 'day', beneath: true, of: ({ training }) => training.validTo },
      {
        name: 'lame',
        kind: 'share',
        of: ({ scored }) => scored && { count: scored.lame, of: scored.cows },
      },
      {
        name: 'lame_range',
        kind: 'text',
        csvOnly: true,
        of: ({ scored }, words) => scored?.range && boundsInWords(words, scored.range),
      },
      {
        name: 'severe',
        kind: 'share',
        beneath: true,
        of: ({ scored }) => scored && { count: scored.severe, of: scored.cows },
      },
      {
        name: 'scored',
        kind: 'share',
        of: ({ scored, herd }) =>
          scored && herd !== undefined ? { count: scored.cows, of: herd } : undefined,
      },
      {
        name: 'cows_by_score',
        kind: 'lines',
        of: ({ round }, words) =>
          Object.entries(round.counts)
            .toSorted(([a], [b]) => Number(a) - Number(b))
            .map(([score, count]) => words.say('audit.by-score', { score, count })),
      },
    ],
  });
}
