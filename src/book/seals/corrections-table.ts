import { farmSealsInOrder, sealsInOrder } from '../../ledger/all-seals.js';
import { correctionsOf } from '../../ledger/corrections-of.js';
import type { LedgerEntry } from '../../ledger/ledger-entry.js';
import type { RecordSeal } from '../../ledger/record-seal.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { FarmRecord } from '../../record/practice.js';
import { dayInWords } from '../../words/number-in-words.js';
import type { Words } from '../../words/words.js';
import type { Cell, TableSection } from '../page-parts.js';
import { placeInWords, valueInWords } from './correction-in-words.js';
import { given } from '../../record/given.js';

interface Row {
  readonly day: string;
  readonly cells: readonly Cell[];
}

/** What was corrected in the open and what was taken out, by its day; undefined where nothing was. */
export function correctionsTable(words: Words, farm: FarmRecord, seals: FarmSeals): TableSection | undefined {
  const numbers = new Map(farm.cases.map(({ slug, animal }) => [slug, animal.animal]));
  const animals = [...seals.animals].flatMap(([slug, one]) =>
    sealsInOrder(one).flatMap((seal) => correctionRows(words, numbers.get(slug), seal)),
  );
  const ofFarm = farmSealsInOrder(seals).flatMap((seal) => correctionRows(words, undefined, seal));
  const rows = [...ofFarm, ...animals, ...withdrawnRows(words, seals, numbers)].toSorted((a, b) =>
    a.day < b.day ? -1 : a.day > b.day ? 1 : 0,
  );
  if (rows.length === 0) return undefined;
  return {
    id: 'corrections',
    heading: words.say('seal.corrections.heading'),
    lead: [words.say('seal.corrections.lead')],
    table: {
      id: 'corrections-table',
      caption: words.say('seal.corrections.caption'),
      columns: ['what', 'when', 'why', 'before', 'now'].map((name) => ({
        head: words.say(`seal.corrections.${name}`),
      })),
      rows,
    },
  };
}

function correctionRows(words: Words, animal: string | undefined, seal: RecordSeal): Row[] {
  return correctionsOf(seal).map(({ amendment: { date, by, why }, changes }) => {
    const lines = (side: 'before' | 'now') =>
      changes.map((change) => `${placeInWords(change)}: ${valueInWords(words, change[side])}`);
    const notKnown = { text: words.say('seal.corrections.not-known') };
    return {
      day: date,
      cells: [
        { text: whatInWords(words, animal, seal.kind, seal.now.content, seal.now.on) },
        { text: dayInWords(words, date), note: by },
        { text: why },
        ...(changes.length === 0
          ? [notKnown, { text: '–', nothing: true }]
          : [
              { text: '', lines: lines('before') },
              { text: '', lines: lines('now') },
            ]),
      ],
    };
  });
}

/** Seals taken back: what they said stays in the chain, and is named here. */
function withdrawnRows(
  words: Words,
  { ledger: { entries }, known, animals }: FarmSeals,
  numbers: ReadonlyMap<string, string>,
): Row[] {
  const slugs = new Map(
    [...animals].flatMap(([slug, { name }]) => (name === undefined ? [] : [[name, slug]])),
  );
  const gone = new Set(known.filter(({ last }) => last === undefined).map(({ first }) => first.number));
  return entries
    .filter(({ kind }) => kind === 'withdrawn')
    .map((entry) => {
      const taken = (entry.withdraws ?? []).flatMap((number) => entries[number - 1] ?? []);
      const { by, why } = entry.content as { readonly by?: string; readonly why?: string };
      const number = numbers.get(slugs.get(entry.animal ?? '') ?? '') ?? entry.animal;
      const isGone = taken.every(({ number: at, of }) => gone.has(of ?? at));
      return {
        day: entry.sealed,
        cells: [
          { text: number ?? words.say('seal.of-farm') },
          { text: dayInWords(words, entry.sealed), ...given({ note: by }) },
          { text: why ?? '' },
          { text: '', lines: taken.map((one) => takenInWords(words, one)) },
          { text: words.say(`seal.corrections.${isGone ? 'taken-out' : 'taken-back'}`) },
        ],
      };
    });
}

function takenInWords(words: Words, { kind, content, on }: LedgerEntry): string {
  return whatInWords(words, undefined, kind, content, on);
}

/** A record as the book speaks of it. */
export function whatInWords(
  words: Words,
  animal: string | undefined,
  kind: LedgerEntry['kind'],
  content: LedgerEntry['content'] | RecordSeal['now']['content'],
  on: string | undefined,
): string {
  const name = content['name'];
  const what = words.say(`seal.record.${kind}`, { name: typeof name === 'string' ? name : '' });
  const dated = on === undefined ? what : words.say('seal.of-day', { what, day: dayInWords(words, on) });
  return animal === undefined ? dated : words.say('seal.of-animal', { animal, what: dated });
}
