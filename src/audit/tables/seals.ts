import { changeInWords } from '../../book/seals/correction-in-words.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Words } from '../../words/words.js';
import type { CaseRecord } from '../../record/practice.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { AmendmentInPeriod } from '../facts/amendment-in-period.js';
import { entriesWitnessed, type OutsideWitness } from '../facts/outside-witness.js';
import type { SealedInPeriod } from '../facts/sealed-in-period.js';
import { type Column, sealed, type SealedTable } from '../table/column.js';

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
      { name: 'by', kind: 'text', of: ({ by }) => by },
      { name: 'why', kind: 'text', of: ({ why }) => why },
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

function aboutColumn<Row extends { readonly record: CaseRecord | undefined }>(): Column<Row> {
  return {
    name: 'about',
    kind: 'text',
    of: ({ record }, words) => record?.animal.animal ?? words.say('book.gaps.farm'),
  };
}

function takenInWords(words: Words, kind: string, on: string | undefined): string {
  const what = words.say(`audit.record.${kind}`);
  const dated = on === undefined ? what : words.say('seal.of-day', { what, day: dayInWords(words, on) });
  return words.say('audit.taken-out', { what: dated });
}
