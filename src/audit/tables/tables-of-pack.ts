import { told, type Words, type Values } from '../../reference/words.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { MissingInPack, MissingForAudit } from '../missing/missing-in-pack.js';
import { beneath, blank, columnsOf, type SealedTable, sealed, whole } from '../table/column.js';
import { lameAnimalsTable, animalColumns, medicinesTable, visitsTable } from './animals.js';
import { summaryTable } from './summary.js';
import { daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import type { Worker } from '../facts/worker.js';
import type { Recheck, Referral } from '../facts/recheck.js';
import { namedInWords, answerInWords } from '../../words/compose-due.js';
import { dayInWords } from '../../words/day-and-place.js';
import { boundsInWords } from '../../words/percent.js';
import type { RoundInPeriod } from '../facts/round-in-period.js';
import { changeInWords } from '../../book/seals/corrections-table.js';
import type { CaseRecord } from '../../record/practice.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import {
  type AmendmentInPeriod,
  entriesWitnessed,
  type OutsideWitness,
  type SealedInPeriod,
} from '../facts/sealed-in-period.js';
import { type MissingInWords, missingOnPage } from '../../words/compose-withheld.js';

/** All tables of a pack in the order an auditor asks: page and CSV files are made of these and of nothing else. */
export function tablesOfPack(facts: AuditFacts, missing: readonly MissingInPack[]): SealedTable[] {
  return [
    summaryTable(facts),
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
  const { text, day, number } = columnsOf<NonNullable<Farm['plan']>>();
  const { plan } = farm.farm;
  const toEnd = (date: string) => (date <= period.to ? daysBetween(date, period.to) : undefined);
  return sealed('plan', plan ? [plan] : [], [
    day('date', ({ date }) => date),
    text('agreed_with', (one) => told(one.with)),
    text('file', ({ file }) => told(file)),
    number('days_before_period_end', ({ date }) => toEnd(date)),
  ]);
}

/** Who lifted feet or scored the herd, with the training on file, and how often they said that tools were disinfected. */
function peopleTable(workers: readonly Worker[]): SealedTable {
  const { text, day, number, share } = columnsOf<Worker>();
  return sealed('people', workers, [
    text('name', ({ name }) => told(name)),
    ...trainingColumns({ strongWhen: ['run-out', 'not-on-file'] }),
    number('lifted_visits', ({ lifted }) => lifted),
    number('animals_lifted', ({ animals }) => animals),
    share('tools_disinfected', ({ disinfected, lifted, animals }) =>
      lifted === 0 ? undefined : { count: disinfected, of: lifted, animals },
    ),
    number('gait_rounds', ({ rounds }) => rounds),
    day('last_day', ({ last }) => last),
  ]);
}

/** The status of somebody's training, which it is and how long it is valid. */
function trainingColumns(look: Parameters<typeof ofTraining.word>[3]) {
  return [
    ofTraining.word('training_standing', 'audit.training', ({ training }) => training.standing, look),
    ofTraining.text('training', ({ training }) => told(training.training), beneath),
    ofTraining.day('training_valid_to', ({ training }) => training.validTo, beneath),
  ];
}
const ofTraining = columnsOf<Pick<Worker, 'training'>>();

/** Every recheck to be done in the period, and what became of it. */
function rechecksTable(rechecks: readonly Recheck[]): SealedTable {
  const { text, day, number, word, lines } = columnsOf<Recheck>();
  return sealed('rechecks', rechecks, [
    ...animalColumns,
    day('due', ({ due }) => due),
    word('standing', 'audit.recheck', ({ standing }) => standing, { strongWhen: ['missed'] }),
    day('moved_to', ({ movedTo }) => movedTo, beneath),
    day('run_ended', ({ ended }) => ended?.on, beneath),
    word('result', 'vocabulary.result', ({ ended }) => ended?.result, beneath),
    day('lifted', ({ lifted }) => lifted?.day, blank),
    text('lifted_by', ({ lifted }) => told(lifted?.by), { ...blank, ...whole }),
    number('days_late', ({ lifted }) => (lifted && lifted.days > 0 ? lifted.days : undefined), blank),
    day('set_on', ({ set }) => set),
    text('set_by', ({ by }) => told(by), whole),
    lines('why_missed', ({ why }) => why.map(told), blank),
  ]);
}

/** What the vet was asked, and what was answered. */
function referralsTable(referrals: readonly Referral[]): SealedTable {
  const { text, day, number, word, lines } = columnsOf<Referral>();
  const answersInWords = (words: Words, { answers }: Referral) =>
    answers.map((one) => {
      const [by, reply] = [told(one.answer.by), told(one.answer.reply)];
      const said = words.say('audit.answer', { day: dayInWords(words, one.day), by, reply });
      return words.semicolons([said, answerInWords(words, one.answer)]);
    });
  return sealed('referrals', referrals, [
    ...animalColumns,
    day('asked', ({ asked }) => asked),
    text('asked_by', ({ askedBy }) => told(askedBy), whole),
    text('why_asked', ({ why }) => told(why)),
    text('asked_about', ({ about }, words) => namedInWords(words, about), { ...beneath, ...blank }),
    word('standing', 'audit.referral', ({ answers }) => (answers.length === 0 ? 'awaited' : 'answered'), {
      strongWhen: ['awaited'],
    }),
    day('answered', ({ answers }) => answers[0]?.day, beneath),
    number('days_to_answer', ({ days }) => days, beneath),
    lines('answers', (row, words) => answersInWords(words, row), blank),
  ]);
}

/** Whole-herd gait rounds: by whom and with what training, and how many were lame of how many scored. */
function gaitRoundsTable(rounds: readonly RoundInPeriod[]): SealedTable {
  const { text, day, word, lines, share } = columnsOf<RoundInPeriod>();
  return sealed('gait-rounds', rounds, [
    day('date', ({ round }) => round.date),
    word('scale', 'vocabulary.gait-scale', ({ scored }) => scored?.scale, beneath),
    text('scored_by', ({ round }) => told(round.by)),
    ...trainingColumns(beneath),
    share('lame', ({ scored }) => scored && { count: scored.lame, of: scored.cows }),
    text('lame_range', ({ scored }, words) => scored?.range && boundsInWords(words, scored.range), {
      csvOnly: true,
    }),
    share('severe', ({ scored }) => scored && { count: scored.severe, of: scored.cows }, beneath),
    share('scored', ({ scored, herd }) =>
      scored && herd !== undefined ? { count: scored.cows, of: herd } : undefined,
    ),
    lines('cows_by_score', ({ round }, words) =>
      Object.entries(round.counts)
        .toSorted(([a], [b]) => Number(a) - Number(b))
        .map(([score, count]) => words.say('audit.by-score', { score, count })),
    ),
  ]);
}

/** Records of the period written late or not sealed; none is listed where nothing at all is sealed. */
function writtenLateTable(records: readonly SealedInPeriod[], { head }: FarmSeals): SealedTable {
  const { day, number, word } = columnsOf<SealedInPeriod>();
  const rows = records.filter(({ isLate, firstSealed }) => isLate || firstSealed === undefined);
  return sealed('written-late', head ? rows : [], [
    aboutColumn,
    word('record', 'audit.record', ({ seal }) => seal.kind),
    day('date', ({ on }) => on),
    day('first_sealed', ({ firstSealed }) => firstSealed),
    number('days_to_seal', ({ days }) => days),
    word('seal', 'audit.seal', ({ isLate }) => (isLate ? 'late' : 'unsealed')),
  ]);
}

/** The corrections of the period, each with what the record said before and says now. */
function amendmentsTable(amendments: readonly AmendmentInPeriod[]): SealedTable {
  const { text, day, word, lines } = columnsOf<AmendmentInPeriod>();
  return sealed('amendments', amendments, [
    aboutColumn,
    word('record', 'audit.record', ({ kind }) => kind),
    day('record_date', ({ on }) => on, blank),
    day('date', ({ date }) => date),
    text('by', ({ by }) => told(by)),
    text('why', ({ why }) => told(why)),
    lines('changes', ({ changes, taken }, words) => [
      ...changes.map((change) => changeInWords(words, change)),
      ...taken.map(({ kind, on }) => takenInWords(words, kind, on)),
    ]),
  ]);
}

/** Mail that named the ledger's head, the latest first. */
function witnessTable(witnesses: readonly OutsideWitness[], seals: FarmSeals): SealedTable {
  const { text, day, number, lines } = columnsOf<OutsideWitness>();
  const rows = witnesses.toSorted((a, b) => (a.day > b.day ? -1 : a.day < b.day ? 1 : 0));
  return sealed('witness', rows, [
    day('date', (one) => one.day),
    lines('to', ({ to }) => to),
    text('head', ({ head }) => head),
    number('entries', (witness) => entriesWitnessed(seals, witness)),
  ]);
}

/** The animal a row is about; without a record the farm. */
const aboutColumn = columnsOf<{ readonly record?: CaseRecord | undefined }>().text(
  'about',
  ({ record }, words) => record?.animal.animal ?? words.say('book.missing.farm'),
);

function takenInWords(words: Words, kind: string, on: string | undefined): string {
  const what = words.say(`audit.record.${kind}`);
  const dated = on === undefined ? what : words.say('seal.of-day', { what, day: dayInWords(words, on) });
  return words.say('audit.taken-out', { what: dated });
}

/** What the records do not hold, graded, each with how to close it. */
function missingTable(missing: readonly MissingInPack[]): SealedTable {
  const { text, word } = columnsOf<MissingInPack>();
  return sealed('gaps', missing, [
    aboutColumn,
    word('grade', 'missing.grade', ({ grade }) => grade, { strongWhen: ['serious'] }),
    text('what', (entry, words) => missingOfPackInWords(words, entry).message),
    text('how_to_close', (entry, words) => missingOfPackInWords(words, entry).close),
    word('where', 'audit.closable', ({ closable }) => closable),
  ]);
}

/** What is missing, and how to close it. */
function missingOfPackInWords(words: Words, entry: MissingInPack): MissingInWords {
  return 'path' in entry ? missingOnPage(words, entry.record?.animal, entry) : ownInWords(words, entry);
}

function ownInWords(words: Words, { id, values }: MissingForAudit): MissingInWords {
  const filled = Object.fromEntries(
    Object.entries(values).map(([key, value]) => [key, valueInWords(words, key, value)]),
  ) as Values;
  const which = values['which'];
  const say = (part: 'message' | 'close') => {
    const variant = `audit.missing.${id}.${part}-${String(which)}`;
    return words.say(
      which !== undefined && words.has(variant) ? variant : `audit.missing.${id}.${part}`,
      filled,
    );
  };
  return { message: say('message'), close: say('close') };
}

function valueInWords(words: Words, key: string, value: string | number | readonly CalendarDay[]) {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string') return words.commas(value.map((day) => dayInWords(words, day)));
  switch (key) {
    case 'day':
    case 'from':
      return dayInWords(words, value);
    case 'rule':
      return words.say(`notice.rule.${value}.title`);
    case 'parts':
      return words.commas(value.split(' ').map((part) => words.say(`audit.part.${part}`)));
    case 'product':
    case 'name':
      return told(value);
    default:
      return value;
  }
}
