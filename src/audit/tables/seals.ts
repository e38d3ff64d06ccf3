import { changeInWords } from '../../book/seals/corrections-table.js';
import { dayInWords } from '../../words/day-and-place.js';
import { type Values, type Words, told } from '../../reference/words.js';
import type { CaseRecord } from '../../record/practice.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import {
  type AmendmentInPeriod,
  entriesWitnessed,
  type OutsideWitness,
  type SealedInPeriod,
} from '../facts/sealed-in-period.js';
import { blank, columnsOf, sealed, type SealedTable } from '../table/column.js';
import type { MissingForAudit, MissingInPack } from '../missing/missing-in-pack.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { type MissingInWords, missingOnPage } from '../../words/compose-withheld.js';

/** Records of the period written late or not sealed; none is listed where nothing at all is sealed. */
export function writtenLateTable(records: readonly SealedInPeriod[], { head }: FarmSeals): SealedTable {
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
export function amendmentsTable(amendments: readonly AmendmentInPeriod[]): SealedTable {
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

/** Mail that told the ledger's head, the latest first. */
export function witnessTable(witnesses: readonly OutsideWitness[], seals: FarmSeals): SealedTable {
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
export function missingTable(missing: readonly MissingInPack[]): SealedTable {
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

function valueInWords(
  words: Words,
  key: string,
  value: string | number | readonly CalendarDay[],
): string | number {
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
