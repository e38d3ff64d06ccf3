import type { CalendarDay } from '../record/calendar-day.js';
import type { DueItem } from '../schedule/due-item.js';
import type { Notice } from '../schedule/notice.js';
import { dayInWords } from '../words/day-in-words.js';
import { sentenceCase } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { Cell, CellItem, TableSection } from './book-page.js';
import type { PlacedCase } from './placed-case.js';
import { dueInWords } from '../words/compose-due.js';
import { noticeInShort } from './notice-in-short.js';

/** What stands in the withheld table, and so is not said again among the things to do. */
const withheld = new Set(['milk-clear', 'meat-clear', 'withdrawal-not-recorded']);

interface DueOfCase {
  readonly one: PlacedCase;
  readonly item: DueItem;
}

/**
 * Who needs what, by when, by whom: what is overdue first, then by day. What one animal needs on one day is one row, a line
 * for each thing with who does it.
 */
export function composeNext(words: Words, cases: readonly PlacedCase[], today: CalendarDay): TableSection {
  const due = dueOf(cases).filter(({ item }) => !withheld.has(item.what));
  const by = (who: DueItem['who']) => due.filter(({ item }) => item.who === who).length;
  const section = { id: 'next', heading: words.say('book.next.heading') };
  if (due.length === 0) return { ...section, lead: [words.say('book.next.none')] };
  return {
    ...section,
    lead: [
      words.say('book.next.lead', {
        count: due.length,
        overdue: due.filter(({ item }) => isOverdue(item)).length,
        trimmer: by('trimmer'),
        farm: by('farm'),
        vet: by('vet'),
      }),
    ],
    table: {
      id: 'next-table',
      caption: words.say('book.next.caption'),
      columns: ['by', 'animal', 'what'].map((key) => ({ head: words.say(`book.next.${key}`) })),
      rows: inGroups(due).map(([first, ...more]) => ({
        cells: [
          dueDay(words, first.item, today),
          animalCell(first.one),
          { text: '', items: [first, ...more].map((each) => lineOf(words, each)) },
        ],
      })),
    },
  };
}

type Group = readonly [DueOfCase, ...DueOfCase[]];

/** Overdue before open, then by day, then in the order of the book; one group a day and animal. */
function inGroups(due: readonly DueOfCase[]): Group[] {
  const sorted = due.toSorted((a, b) => Number(isOverdue(b.item)) - Number(isOverdue(a.item)));
  const groups = new Map<string, Group>();
  for (const each of sorted) {
    const key = `${isOverdue(each.item)} ${each.item.by} ${each.one.id}`;
    const before = groups.get(key);
    groups.set(key, before ? [...before, each] : [each]);
  }
  return [...groups.values()];
}

function lineOf(words: Words, { one, item }: DueOfCase): CellItem {
  const { what, why } = dueInWords(words, one.record.animal, item);
  return {
    lead: sentenceCase(words.say(`book.who.${item.who}`)),
    text: what,
    ...(why === '' ? {} : { note: why }),
  };
}

function isOverdue({ standing }: DueItem): boolean {
  return standing === 'overdue';
}

/** The veterinary surgeon's list: notices that stand, and answers awaited; same day first. */
export function composeVetList(words: Words, cases: readonly PlacedCase[]): TableSection {
  const order = ['stop-work', 'same-day', 'notice'];
  const notices = cases
    .flatMap((one) => one.notices.filter((notice) => notice.standing).map((notice) => ({ one, notice })))
    .sort(
      (a, b) =>
        order.indexOf(a.notice.urgency) - order.indexOf(b.notice.urgency) || a.one.place - b.one.place,
    );
  const animals = [...new Set(notices.map(({ one }) => one))];
  const section = { id: 'vet-list', heading: words.say('book.vet.heading') };
  if (notices.length === 0) return { ...section, lead: [words.say('book.vet.none')] };
  return {
    ...section,
    lead: [words.say('book.vet.lead')],
    table: {
      id: 'vet-table',
      caption: words.say('book.vet.caption'),
      columns: ['animal', 'when', 'why', 'asked'].map((key) => ({ head: words.say(`book.vet.${key}`) })),
      rows: animals.map((one) => {
        const hers = notices.filter((each) => each.one === one).map(({ notice }) => notice);
        const urgency = hers[0]?.urgency ?? 'notice';
        return {
          cells: [
            animalCell(one),
            { text: words.say(`book.vet.urgency.${urgency}`), strong: urgency !== 'notice' },
            linesCell(hers.map((notice) => noticeInShort(words, one.record.animal, notice))),
            linesCell([...new Set(hers.map((notice) => askedInShort(words, notice)))]),
          ],
        };
      }),
    },
  };
}

/** Whose milk or meat is withheld, the last withheld and the first clear day side by side. */
export function composeWithheld(words: Words, cases: readonly PlacedCase[]): TableSection {
  const due = dueOf(cases).filter(({ item }) => withheld.has(item.what));
  const section = { id: 'withheld', heading: words.say('book.withheld.heading') };
  if (due.length === 0) return { ...section, lead: [words.say('book.withheld.none')] };
  return {
    ...section,
    lead: [words.say('book.withheld.lead')],
    table: {
      id: 'withheld-table',
      caption: words.say('book.withheld.caption'),
      columns: ['animal', 'what', 'last', 'clear'].map((key) => ({
        head: words.say(`book.withheld.${key}`),
      })),
      rows: due.map(({ one, item }) => {
        const said = dueInWords(words, one.record.animal, item);
        const known = item.what !== 'withdrawal-not-recorded';
        const product = { text: said.what, note: said.why };
        return {
          cells: [
            animalCell(one),
            known ? { ...product, text: words.say(`book.withheld.${item.what}`) } : product,
            {
              text: item.lastWithheld
                ? dayInWords(words, item.lastWithheld)
                : words.say('book.withheld.unknown'),
            },
            { text: known ? dayInWords(words, item.by) : words.say('book.withheld.unknown'), strong: known },
          ],
        };
      }),
    },
  };
}

function dueOf(cases: readonly PlacedCase[]): DueOfCase[] {
  return cases
    .flatMap((one) => one.due.filter((item) => item.standing !== 'done').map((item) => ({ one, item })))
    .sort((a, b) => (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : a.one.place - b.one.place));
}

/** The day, and in words where it has passed: overdue, or standing since then where no day makes it late. */
function dueDay(words: Words, item: DueItem, today: CalendarDay): Cell {
  const day = { text: dayInWords(words, item.by) };
  if (isOverdue(item))
    return { ...day, strong: true, note: words.say('book.next.overdue'), noteStrong: true };
  if (item.by >= today) return day;
  return { ...day, note: words.say(item.overdueFrom === undefined ? 'book.next.since' : 'book.next.due') };
}

function askedInShort(words: Words, { asked, answered }: Notice): string {
  if (answered) return words.say('book.vet.answered-on', { day: dayInWords(words, answered.on) });
  return asked
    ? words.say('book.vet.asked-on', { day: dayInWords(words, asked.on) })
    : words.say('book.vet.not-asked');
}

function linesCell([text = '', ...lines]: readonly string[]): Cell {
  return lines.length > 0 ? { text, lines } : { text };
}

function animalCell(one: PlacedCase): Cell {
  return { text: one.record.animal.animal, href: `#${one.id}` };
}
