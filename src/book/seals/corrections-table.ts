import type { ContentDifference, LedgerEntry } from '../../ledger/ledger-entry.js';
import { type Correction, correctionsInBook, type RecordSeal, daysToSeal } from '../../ledger/record-seal.js';
import { calendarDay } from '../../record/calendar-day.js';
import { dayInWords } from '../../words/day-and-place.js';
import { type Words, told } from '../../reference/words.js';
import { farmSealsInOrder, sealsInOrder, type FarmSeals, openSeals } from '../../ledger/seals-of-farm.js';
import type { FarmRecord } from '../../record/practice.js';
import { type Cell, dataTable, heads, type TableSection, type TextList } from '../page-parts.js';
import { given } from '../../record/given.js';
import { shortHead } from '../../ledger/read-ledger.js';
import { fixedDays } from '../../reference/intervals.js';

/** When, by whom and why, then what each value was before and is now, where that was sealed. */
export function correctionInWords(words: Words, { amendment, changes }: Correction): string {
  const { date, by, why } = amendment;
  return words.semicolons([
    dayInWords(words, date),
    told(by),
    told(why),
    ...changes.map((one) => changeInWords(words, one)),
  ]);
}

/** One value before and now. @example changeInWords(words, { path: ['found', 'a', 'top'], before: 17, now: 19 }) // → 'a top: 17 before, 19 now' */
export function changeInWords(words: Words, change: ContentDifference): string {
  return words.say('seal.changed', {
    where: pathInWords(change),
    before: valueInWords(words, change.before),
    now: valueInWords(words, change.now),
  });
}

/** The keys of the file that lead there. @example pathInWords({ path: ['found', 'a', 'top'] }) // → 'a top' */
export function pathInWords({ path }: Pick<ContentDifference, 'path'>): string {
  const [first, ...rest] = path;
  const named = first === 'found' && rest.length > 0 ? rest : path;
  return named.map((part) => (typeof part === 'number' ? part + 1 : part)).join(' ');
}

/** A value of a record as it was written, days with their month in letters. */
function valueInWords(words: Words, value: unknown): string {
  if (value === undefined || value === null) return words.say('seal.nothing');
  if (Array.isArray(value)) return words.commas(value.map((one) => valueInWords(words, one)));
  if (typeof value === 'object')
    return words.commas(Object.entries(value).map(([key, inner]) => `${key} ${valueInWords(words, inner)}`));
  if (typeof value !== 'string') return JSON.stringify(value);
  return calendarDay.safeParse(value).success ? dayInWords(words, value) : told(value);
}

interface Row {
  readonly day: string;
  readonly cells: readonly (string | Cell)[];
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
    table: dataTable(
      'corrections-table',
      words.say('seal.corrections.caption'),
      heads(words, 'seal.corrections', 'what', 'when', 'why', 'before', 'now'),
      rows.map(({ cells }) => cells),
    ),
  };
}

function correctionRows(words: Words, animal: string | undefined, seal: RecordSeal): Row[] {
  return correctionsInBook(seal).map(({ amendment: { date, by, why }, changes }) => {
    const lines = (side: 'before' | 'now') => ({
      text: '',
      lines: changes.map((change) => `${pathInWords(change)}: ${valueInWords(words, change[side])}`),
    });
    const cells = [
      whatInWords(words, animal, seal.kind, seal.now.content, seal.now.on),
      { text: dayInWords(words, date), note: told(by) },
      told(why),
      ...(changes.length === 0
        ? [words.say('seal.corrections.not-known'), { text: '–', nothing: true }]
        : [lines('before'), lines('now')]),
    ];
    return { day: date, cells };
  });
}

/** Seals taken back on a later day than they were made: what they said stays in the chain, and is named here. */
function withdrawnRows(
  words: Words,
  { ledger: { entries }, known, animals }: FarmSeals,
  numbers: ReadonlyMap<string, string>,
): Row[] {
  const slugs = new Map([...animals].map(([slug, { name }]) => [name, slug]));
  const gone = new Set(known.filter(({ last }) => last === undefined).map(({ first }) => first.number));
  return entries
    .filter(({ kind }) => kind === 'withdrawn')
    .flatMap((entry) => {
      const all = (entry.withdraws ?? []).flatMap((number) => entries[number - 1] ?? []);
      const taken = all.filter(({ number, of = number }) => entries[of - 1]?.sealed !== entry.sealed);
      if (taken.length === 0) return [];
      const { by, why } = entry.content as { readonly by?: string; readonly why?: string };
      const number = entry.animal && (numbers.get(slugs.get(entry.animal) ?? '') ?? entry.animal);
      const isGone = taken.every(({ number: at, of }) => gone.has(of ?? at));
      const lines = taken.map(({ kind, content, on }) => whatInWords(words, undefined, kind, content, on));
      const cells = [
        number ?? words.say('seal.of-farm'),
        { text: dayInWords(words, entry.sealed), ...given({ note: told(by) }) },
        told(why ?? ''),
        { text: '', lines },
        words.say(`seal.corrections.${isGone ? 'taken-out' : 'taken-back'}`),
      ];
      return { day: entry.sealed, cells };
    });
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

/** How a farm's records are sealed, how many are not or were late, and what a seal does not prove. */
export function composeSealing(words: Words, seals: FarmSeals | undefined): TextList {
  const heading = words.say('seal.heading');
  const proves = words.say('seal.nothing-before');
  if (!seals?.head) return { heading, items: [`${words.say('seal.not-sealed')} ${proves}`] };
  const all = [...farmSealsInOrder(seals), ...[...seals.animals.values()].flatMap(sealsInOrder)];
  const open = openSeals(seals).length;
  const days = all.flatMap((seal) => daysToSeal(seal) ?? []);
  // With spaces that no line is broken at; whoever types it back may leave them out.
  const head = shortHead(seals.head).replaceAll(' ', '\u00a0');
  const late = days.filter((count) => count > fixedDays('written-late')).length;
  return {
    heading,
    items: [
      `${words.say('seal.sealed', { count: seals.head.entries, head })} ${proves} ${words.say('seal.covers')}`,
      ...(late > 0
        ? [words.say('seal.late', { count: late, of: days.length, days: fixedDays('written-late') })]
        : []),
      ...(open > 0 ? [words.say('seal.open', { count: open })] : []),
    ],
  };
}

/** What the foot of every sheet says: with the head, so that each copy bears witness. */
export function withHead(words: Words, running: string, seals: FarmSeals | undefined): string {
  const head = seals?.head;
  return head ? words.say('seal.running', { running, head: shortHead(head), count: head.entries }) : running;
}
