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
import { type AuditColumn, sealed, type SealedTable } from '../table/column.js';
import type { MissingInPack, MissingForAudit } from '../missing/missing-for-audit.js';
import { gradeOf } from '../missing/missing-in-pack.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { type MissingInWords, missingOnPage } from '../../words/compose-withheld.js';

/** Records of the period written late or not sealed; none is listed where nothing at all is sealed. */
export function writtenLateTable(records: readonly SealedInPeriod[], { head }: FarmSeals): SealedTable {
  return sealed<SealedInPeriod>({
    name: 'written-late',
    rows: head ? records.filter(({ isLate, firstSealed }) => isLate || firstSealed === undefined) : [],
    columns: [
      aboutColumn(),
      { name: 'record', kind: 'word', words: 'audit.record', of: ({ seal }) => seal.kind },
      { name: 'date', kind: 'day', of: ({ on }) => on },
      { name: 'first_sealed', kind: 'day', of: ({ firstSealed }) => firstSealed },
      { name: 'days_to_seal', kind: 'number', of: ({ days }) => days },
      { name: 'seal', kind: 'word', words: 'audit.seal', of: ({ isLate }) => (isLate ? 'late' : 'unsealed') },
    ],
  });
}

/** The corrections of the period, each with what the record said before and says now. */
export function amendmentsTable(amendments: readonly AmendmentInPeriod[]): SealedTable {
  return sealed<AmendmentInPeriod>({
    name: 'amendments',
    rows: amendments,
    columns: [
      aboutColumn(),
      { name: 'record', kind: 'word', words: 'audit.record', of: ({ kind }) => kind },
      { name: 'record_date', kind: 'day', blank: true, of: ({ on }) => on },
      { name: 'date', kind: 'day', of: ({ date }) => date },
      { name: 'by', kind: 'text', of: ({ by }) => told(by) },
      { name: 'why', kind: 'text', of: ({ why }) => told(why) },
      {
        name: 'changes',
        kind: 'lines',
        of: ({ changes, taken }, words) => [
          ...changes.map((change) => changeInWords(words, change)),
          ...taken.map(({ kind, on }) => takenInWords(words, kind, on)),
        ],
      },
    ],
  });
}

/** Mail that told the ledger's head, the latest first. */
export function witnessTable(witnesses: readonly OutsideWitness[], seals: FarmSeals): SealedTable {
  return sealed<OutsideWitness>({
    name: 'witness',
    rows: witnesses.toSorted((a, b) => (a.day > b.day ? -1 : a.day < b.day ? 1 : 0)),
    columns: [
      { name: 'date', kind: 'day', of: ({ day }) => day },
      { name: 'to', kind: 'lines', of: ({ to }) => to },
      { name: 'head', kind: 'text', of: ({ head }) => head },
      { name: 'entries', kind: 'number', of: (witness) => entriesWitnessed(seals, witness) },
    ],
  });
}

function aboutColumn<Row extends { readonly record: CaseRecord | undefined }>(): AuditColumn<Row> {
  return {
    name: 'about',
    kind: 'text',
    of: ({ record }, words) => record?.animal.animal ?? words.say('book.missing.farm'),
  };
}

function takenInWords(words: Words, kind: string, on: string | undefined): string {
  const what = words.say(`audit.record.${kind}`);
  const dated = on === undefined ? what : words.say('seal.of-day', { what, day: dayInWords(words, on) });
  return words.say('audit.taken-out', { what: dated });
}

/** What the records do not hold, graded, each with how to close it. */
export function missingTable(missing: readonly MissingInPack[]): SealedTable {
  return sealed<MissingInPack>({
    name: 'gaps',
    rows: missing,
    columns: [
      {
        name: 'about',
        kind: 'text',
        of: (entry, words) => {
          const record = 'own' in entry ? entry.own.record : entry.record;
          return record ? record.animal.animal : words.say('book.missing.farm');
        },
      },
      {
        name: 'grade',
        kind: 'word',
        words: 'missing.grade',
        strongWhen: ['serious'],
        of: gradeOf,
      },
      { name: 'what', kind: 'text', of: (entry, words) => missingOfPackInWords(words, entry).message },
      { name: 'how_to_close', kind: 'text', of: (entry, words) => missingOfPackInWords(words, entry).close },
      {
        name: 'where',
        kind: 'word',
        words: 'audit.closable',
        of: (entry) => ('own' in entry ? entry.own.closable : entry.ofCase.closable),
      },
    ],
  });
}

/** What is missing, and how to close it. */
function missingOfPackInWords(words: Words, entry: MissingInPack): MissingInWords {
  return 'own' in entry
    ? ownInWords(words, entry.own)
    : missingOnPage(words, entry.record?.animal, entry.ofCase);
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
